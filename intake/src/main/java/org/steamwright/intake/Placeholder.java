package org.steamwright.intake;

final class Placeholder {
    private Placeholder() {}
}
