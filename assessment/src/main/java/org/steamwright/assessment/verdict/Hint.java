package org.steamwright.assessment.verdict;

/**
 * A pattern in the findings and what it often comes from. A hint only: the technician decides.
 *
 * @param pattern what was seen
 * @param likelyCauses what the trade would look at first
 * @param nextCheck what would tell the causes apart
 */
public record Hint(String pattern, String likelyCauses, String nextCheck) {}
