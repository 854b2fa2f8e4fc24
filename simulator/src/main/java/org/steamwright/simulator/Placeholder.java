package org.steamwright.simulator;

final class Placeholder {
    private Placeholder() {}
}
