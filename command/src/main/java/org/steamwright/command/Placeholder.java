package org.steamwright.command;

final class Placeholder {
    private Placeholder() {}
}
