package org.steamwright.command;

import org.junit.jupiter.api.Test;

final class PlaceholderTest {
    @Test
    void runs() {}
}
