package org.steamwright.intake.certificate;

/**
 * A number by which somebody knows a thing or an order.
 *
 * @param issuer whose number: manufacturer, customer, calibrationLaboratory, owner or other
 * @param name what kind of number, such as 'Serial no.'; may be blank
 * @param value the number itself
 */
public record Identification(String issuer, String name, String value) {

    @Override
    public String toString() {
        return (name.isEmpty() ? "number of the " + issuer : name) + " " + value;
    }
}
