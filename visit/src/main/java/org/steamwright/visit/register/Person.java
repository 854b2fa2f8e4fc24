package org.steamwright.visit.register;

/**
 * A person with a part in the visit.
 *
 * @param name at the time of the visit
 * @param role such as technician, reviewer, infection control lead
 * @param organisation employer
 * @param authorisation competence or licence reference; may be blank
 * @param confirms what this person stands for, in words; may be blank
 */
public record Person(String name, String role, String organisation, String authorisation, String confirms) {}
