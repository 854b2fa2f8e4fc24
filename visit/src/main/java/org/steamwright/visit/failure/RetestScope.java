package org.steamwright.visit.failure;

import java.util.List;

/**
 * What is tested again after a failure, and why no more and no less.
 *
 * @param tests in the order in which they are made
 * @param because on what it rests: rows of the after-change matrix, or why everything is repeated
 */
public record RetestScope(List<String> tests, String because) {

    public RetestScope {
        tests = List.copyOf(tests);
        if (tests.isEmpty() || because.isBlank()) {
            throw new IllegalArgumentException(
                    "something is tested again after a failure, and there is a reason for it");
        }
    }
}
