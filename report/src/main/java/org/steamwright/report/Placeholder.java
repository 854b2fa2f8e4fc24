package org.steamwright.report;

final class Placeholder {
    private Placeholder() {}
}
