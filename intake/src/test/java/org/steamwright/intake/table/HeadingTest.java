package org.steamwright.intake.table;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.intake.ElapsedUnit;
import org.steamwright.intake.MeasuringUnit;

class HeadingTest {

    @ParameterizedTest(name = "{0} is {1} in {2}: {3}")
    @CsvSource(
            delimiter = '|',
            value = {
                "T1 (°C)            | T1              | °C         | round brackets",
                "T1 [degC]          | T1              | °C         | square brackets, in letters",
                "T1 {°F}            | T1              | °F         | curly brackets",
                "T1 (º C)           | T1              | °C         | the ordinal sign for the degree sign",
                "T1 (Â°C)           | T1              | °C         | UTF-8 that somebody read as windows-1252",
                "T1, °C             | T1              | °C         | behind a comma",
                "T1 in °C           | T1              | °C         | behind the word in",
                "T / K              | T               | K          | quantity over unit, as physicists write",
                "Chamber temp °C    | Chamber temp °C | °C         | the last word",
                "T_C                | T_C             | °C         | a letter behind an underscore",
                "Sensor C           | Sensor C        | -          | a letter behind a blank is the third sensor",
                "C                  | C               | -          | a letter alone is no unit",
                "Chamber (front)    | Chamber (front) | -          | a place in brackets is no unit",
                "T1 (°Re)           | T1 (°Re)        | -          | an unknown unit",
                "P (bar(g))         | P               | bar gauge  | brackets within brackets",
                "P [bar] (abs)      | P               | bar abs    | two brackets",
                "P (kPa) (g)        | P               | kPa gauge  | two brackets, one letter",
                "P (psig)           | P               | psi gauge  | written together",
                "P (psia)           | P               | psi abs    | written together",
                "P (hPa)            | P               | hPa        | not h and Pa of a gauge",
                "P (Pa)             | P               | Pa         | its a does not mean absolute",
                "p_kPa_abs          | p_kPa_abs       | kPa abs    | two endings",
                "p_rel_mbar         | p_rel_mbar      | mbar gauge | gauge said by the name",
                "Abs. pressure, kPa | Abs. pressure   | kPa abs    | absolute said by the name",
                "P abs rel (kPa)    | P abs rel       | kPa        | a name that says both says nothing",
                "P (mPa)            | P (mPa)         | -          | millipascal is not megapascal",
                "a (mbar)           | a               | mbar       | a channel called a is not absolute",
                "T1 (C)             | T1              | °C         | a letter in brackets",
                "T1 (c)             | T1 (c)          | -          | a small c is no degree Celsius",
            })
    void takes_name_and_unit_apart(String header, String name, String unit, String why) {
        Heading heading = Heading.of(header, "");
        assertThat(heading.name()).as(why).isEqualTo(name);
        assertThat(heading.unit().map(MeasuringUnit::toString).orElse("-"))
                .as(why)
                .isEqualTo(unit);
    }

    @ParameterizedTest(name = "{0} over {1}: {2}")
    @CsvSource({
        "T1, °C, °C, the plain case",
        "P, kPa(abs), kPa abs, absolute said by the unit",
        "P abs, kPa, kPa abs, absolute said by the name",
        "P, [bar g], bar gauge, brackets and a letter",
        "T1 (°C), -, °C, the name has it and the row of units does not",
    })
    void takes_the_unit_from_its_own_row(String header, String below, String unit, String why) {
        assertThat(Heading.of(header, below).unit().map(MeasuringUnit::toString))
                .as(why)
                .contains(unit);
    }

    @ParameterizedTest(name = "{0}: {2}")
    @CsvSource({
        "t_s, SECOND, an ending",
        "Time (min), MINUTE, brackets",
        "Elapsed [ms], MILLISECOND, square brackets",
        "Seconds, SECOND, the unit alone",
        "h, HOUR, a letter alone",
    })
    void knows_units_of_time(String header, ElapsedUnit unit, String why) {
        assertThat(Heading.of(header, "").elapsed()).as(why).contains(unit);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"RH (%rH), a percentage", "Battery (V), volt", "Power [kW], kilowatt", "RH %, the last word"})
    void knows_units_that_no_criterion_uses(String header, String why) {
        Heading heading = Heading.of(header, "");
        assertThat(heading.otherUnit()).as(why).isPresent();
        assertThat(heading.unit()).as(why).isEmpty();
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"probe_A, not ampere", "probe_V, not volt", "Probe/W, not watt"})
    void does_not_take_the_letter_of_a_probe_for_a_unit(String header, String why) {
        assertThat(Heading.of(header, "").isSilent()).as(why).isTrue();
    }
}
