package org.steamwright.intake.register;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.Period;
import java.time.YearMonth;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Flaw;

/** Times that calendars count: 12 months, 2 weeks; and expiry dates, which boxes often give as a month. */
final class Periods {

    private static final Pattern PERIOD = Pattern.compile("([0-9]{1,4}) ?(days?|weeks?|months?|years?)");
    private static final Pattern MONTH = Pattern.compile("[0-9]{4}-[0-9]{2}");

    private Periods() {}

    /** The period of an entry; empty after a problem was added. */
    static Optional<Period> read(Entry entry) {
        Optional<String> text = entry.text();
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Optional<Period> period = find(text.get());
        if (period.isEmpty()) {
            entry.problem(
                    RegisterMessage.NOT_A_PERIOD,
                    Flaw.of(
                            "found \"" + text.get() + "\", expected a whole number of days, weeks, months or years.",
                            "Write for example: 12 months"));
        }
        return period;
    }

    static Optional<Period> find(String text) {
        Matcher found = PERIOD.matcher(text);
        if (!found.matches()) {
            return Optional.empty();
        }
        int number = Integer.parseInt(found.group(1));
        Period period = switch (found.group(2).charAt(0)) {
            case 'd' -> Period.ofDays(number);
            case 'w' -> Period.ofWeeks(number);
            case 'm' -> Period.ofMonths(number);
            default -> Period.ofYears(number);
        };
        return period.isZero() ? Optional.empty() : Optional.of(period);
    }

    /** The last good day: a day as it stands, a month to its end; empty after a problem was added. */
    static Optional<LocalDate> expiry(Entry entry) {
        Optional<String> text = entry.text();
        if (text.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(
                    MONTH.matcher(text.get()).matches()
                            ? YearMonth.parse(text.get()).atEndOfMonth()
                            : LocalDate.parse(text.get()));
        } catch (DateTimeException e) {
            entry.problem(
                    RegisterMessage.NOT_AN_EXPIRY,
                    Flaw.of(
                            "found \"" + text.get()
                                    + "\", expected a day as year-month-day, or a month as year-month, which is good to its end.",
                            "Write for example: 2026-06-30 or 2026-06"));
            return Optional.empty();
        }
    }
}
