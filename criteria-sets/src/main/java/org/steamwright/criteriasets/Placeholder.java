package org.steamwright.criteriasets;

final class Placeholder {
    private Placeholder() {}
}
