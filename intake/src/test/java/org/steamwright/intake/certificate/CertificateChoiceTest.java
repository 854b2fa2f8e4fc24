package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.steamwright.intake.certificate.DccSample.TWO_POINTS;
import static org.steamwright.intake.certificate.DccSample.column;
import static org.steamwright.intake.certificate.DccSample.expanded;
import static org.steamwright.intake.certificate.DccSample.item;
import static org.steamwright.intake.certificate.DccSample.result;
import static org.steamwright.intake.certificate.DccSample.table;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Quantity;

class CertificateChoiceTest {

    private static final String CELSIUS = "\\degreecelsius";
    private static final LocalDate DUE = LocalDate.of(2027, 2, 10);
    private static final List<CalibrationPoint> POINTS =
            List.of(new CalibrationPoint(121, 121.07, 0.06, 2), new CalibrationPoint(134, 134.08, 0.06, 2));

    private String instrument = "TL-07";
    private Optional<String> item = Optional.empty();
    private Optional<String> result = Optional.empty();
    private Optional<LocalDate> dueOn = Optional.of(DUE);
    private Optional<Double> expanded = Optional.empty();
    private Optional<Double> factor = Optional.empty();

    private CertificateChoice.Chosen choose(DccSample sample) throws UnreadableCertificateException {
        return new CertificateChoice(instrument, Quantity.TEMPERATURE, item, result, dueOn, expanded, factor)
                .of(sample.read());
    }

    private String refusal(DccSample sample) {
        UnreadableCertificateException refused =
                catchThrowableOfType(UnreadableCertificateException.class, () -> choose(sample));
        if (refused == null) {
            throw new AssertionError("it was chosen");
        }
        return String.valueOf(refused.getMessage());
    }

    private static String ids(CertificateChoice.Chosen chosen) {
        return chosen.remarks().stream().map(Remark::id).toList().toString();
    }

    @Test
    void an_ordinary_certificate_needs_nothing_but_the_day() throws Exception {
        CertificateChoice.Chosen chosen = choose(new DccSample());
        CalibrationCertificate certificate = chosen.certificate();
        assertThat(certificate.number()).isEqualTo("K-2026-0118");
        assertThat(certificate.laboratory()).isEqualTo("Example Calibration (invented)");
        assertThat(certificate.calibratedOn()).isEqualTo(LocalDate.of(2026, 2, 10));
        assertThat(certificate.dueOn()).isEqualTo(DUE);
        assertThat(certificate.points()).isEqualTo(POINTS);
        CertificateFile file = certificate.file().orElseThrow();
        assertThat(file.name()).isEqualTo("logger.xml");
        assertThat(file.schemaVersion()).isEqualTo("3.1.1");
        assertThat(file.item()).isEqualTo("Data logger (Serial no. SN-2207, Own no. TL-07)");
        assertThat(file.state()).isEqualTo(CertificateFile.State.AS_CALIBRATED);
        assertThat(file.signature()).isEqualTo(CertificateFile.Signature.NOT_SIGNED);
        assertThat(file.asFound()).isEmpty();
        assertThat(chosen.remarks()).isEmpty();
    }

    @Test
    void no_day_is_invented() {
        dueOn = Optional.empty();
        assertThat(refusal(new DccSample()))
                .isEqualTo(
                        "CERTIFICATE-014 logger.xml: it states no day by which the instrument is to be calibrated again, and none"
                                + " is invented. Add the last day of your interval, such as due-on: 2027-02-10.");
    }

    @Test
    void the_earlier_of_two_days_counts() throws Exception {
        CertificateChoice.Chosen later = choose(new DccSample().due("2026-08-10"));
        assertThat(later.certificate().dueOn()).isEqualTo(LocalDate.of(2026, 8, 10));
        assertThat(ids(later)).isEqualTo("[CERTIFICATE-042]");
        CertificateChoice.Chosen earlier = choose(new DccSample().due("2028-02-10"));
        assertThat(earlier.certificate().dueOn()).isEqualTo(DUE);
        assertThat(ids(earlier)).isEqualTo("[]");
        dueOn = Optional.empty();
        assertThat(choose(new DccSample().due("2026-08-10")).certificate().dueOn())
                .isEqualTo(LocalDate.of(2026, 8, 10));
    }

    @Test
    void a_day_before_the_calibration_is_refused() {
        dueOn = Optional.of(LocalDate.of(2025, 2, 10));
        assertThat(refusal(new DccSample()))
                .isEqualTo(
                        "CERTIFICATE-014 logger.xml: it is due on 2025-02-10, before its calibration on 2026-02-10. Correct the day.");
    }

    @Test
    void the_last_state_counts_and_the_one_before_is_kept() throws Exception {
        String before = table(
                column("basic_referenceValue", "R", "121.00 134.00", CELSIUS),
                column("basic_measuredValue", "I", "121.40 134.60", CELSIUS, expanded("0.10", "2", "")));
        CalibrationCertificate certificate = choose(
                        new DccSample().condition("basic_adjustment", "beforeAdjustment", before))
                .certificate();
        assertThat(certificate.points()).isEqualTo(POINTS);
        assertThat(certificate.file().orElseThrow().state()).isEqualTo(CertificateFile.State.AS_LEFT);
        assertThat(certificate.file().orElseThrow().asFound())
                .containsExactly(new CalibrationPoint(121, 121.4, 0.1, 2), new CalibrationPoint(134, 134.6, 0.1, 2));
    }

    @Test
    void the_state_before_an_adjustment_alone_is_no_calibration() {
        assertThat(refusal(new DccSample().results(result("refType=\"x_beforeAdjustment\"", "one", TWO_POINTS))))
                .startsWith("CERTIFICATE-016 logger.xml: it gives only points from before an adjustment");
    }

    @Test
    void a_foreign_number_is_said() throws Exception {
        instrument = "TL-08";
        CertificateChoice.Chosen chosen = choose(new DccSample());
        assertThat(chosen.remarks())
                .singleElement()
                .asString()
                .isEqualTo(
                        "CERTIFICATE-046 logger.xml: None of the numbers of its item is TL-08: Data logger (Serial no. SN-2207, Own"
                                + " no. TL-07). See that the certificate belongs to this instrument.");
    }

    private static DccSample twoItems() {
        return new DccSample()
                .items(item("a", "SN-1", "TL-01"), item("b", "SN-2", "TL-02"))
                .results(
                        result("refId=\"a\"", "first", TWO_POINTS),
                        result(
                                "refId=\"b\"",
                                "second",
                                TWO_POINTS
                                        .replace("121.07 134.08", "121.00 134.00")
                                        .replace("0.07 0.08", "0.00 0.00")));
    }

    @Test
    void of_two_items_the_one_with_the_number_of_the_instrument_is_meant() throws Exception {
        instrument = "TL-02";
        assertThat(choose(twoItems()).certificate().points().get(0).indicated()).isEqualTo(121);
        instrument = "TL-01";
        assertThat(choose(twoItems()).certificate().points().get(0).indicated()).isEqualTo(121.07);
    }

    @Test
    void of_two_items_one_has_to_be_named_by_number_name_or_place() throws Exception {
        assertThat(refusal(twoItems()))
                .isEqualTo(
                        "CERTIFICATE-011 logger.xml: the certificate is about 2 items, and none of their numbers is TL-07. Say which"
                                + " is meant, with its number: 1 is Data logger (Serial no. SN-1, Own no. TL-01); 2 is Data logger (Serial"
                                + " no. SN-2, Own no. TL-02).");
        for (String word : List.of("SN-2", "sn-2", "TL-02", "b", "2")) {
            item = Optional.of(word);
            assertThat(choose(twoItems()).certificate().points().get(0).indicated())
                    .as(word)
                    .isEqualTo(121);
        }
        item = Optional.of("SN-3");
        assertThat(refusal(twoItems()))
                .startsWith("CERTIFICATE-011 logger.xml: no item of the certificate is called \"SN-3\".");
        item = Optional.of("Data logger");
        assertThat(refusal(twoItems())).contains("more than one item of the certificate is called \"Data logger\"");
    }

    @Test
    void items_calibrated_as_one_need_no_name() throws Exception {
        CertificateChoice.Chosen chosen =
                choose(new DccSample().items(item("", "SN-1", "D-1"), item("", "SN-2", "S-1")));
        assertThat(chosen.certificate().file().orElseThrow().item())
                .isEqualTo(
                        "Data logger (Serial no. SN-1, Own no. D-1) with Data logger (Serial no. SN-2, Own no. S-1)");
    }

    @Test
    void of_several_results_one_has_to_be_named() throws Exception {
        DccSample channels = new DccSample()
                .results(
                        result("id=\"ch1\"", "channel 1", TWO_POINTS),
                        result(
                                "id=\"ch2\"",
                                "channel 2",
                                TWO_POINTS
                                        .replace("121.07 134.08", "121.01 134.02")
                                        .replace("0.07 0.08", "0.01 0.02")));
        assertThat(refusal(channels))
                .isEqualTo(
                        "CERTIFICATE-012 logger.xml: several of its results could correct TL-07, and nothing says which is meant. Add"
                                + " the number of the one: 1 'channel 1', 2 'channel 2'.");
        for (String word : List.of("2", "ch2", "Channel 2")) {
            result = Optional.of(word);
            assertThat(choose(channels).certificate().points().get(1).indicated())
                    .as(word)
                    .isEqualTo(134.02);
        }
        result = Optional.of("3");
        assertThat(refusal(channels))
                .startsWith("CERTIFICATE-012 logger.xml: no result that could be used is called \"3\".");
    }

    /** Certificates that correct no temperature. */
    static Stream<Arguments> unusable() {
        return Stream.of(
                Arguments.of(
                        table(
                                column("basic_referenceValue", "R", "100 300", "\\kilo\\pascal"),
                                column("basic_measuredValue", "I", "100 300", "\\kilo\\pascal")),
                        "it is of pressure, or of another item"),
                Arguments.of(
                        table(
                                column("basic_referenceValue", "R", "0 100", CELSIUS),
                                column("basic_measuredValue", "I", "100 138.5", "\\ohm")),
                        "resistance of the sensor over temperature"),
                Arguments.of(
                        table(column("", "R", "121 134", CELSIUS), column("", "I", "121 134", CELSIUS)),
                        "carry no reference type"));
    }

    @ParameterizedTest
    @MethodSource("unusable")
    void says_why_no_result_can_be_used(String data, String why) {
        assertThat(refusal(new DccSample().data(data)))
                .startsWith("CERTIFICATE-013 logger.xml: no result of it corrects a temperature of TL-07 (result 1")
                .contains(why);
    }

    @Test
    void a_missing_uncertainty_is_asked_and_never_replaced() throws Exception {
        DccSample without = new DccSample()
                .data(table(
                        column("basic_referenceValue", "R", "121.00 134.00", CELSIUS),
                        column("basic_measuredValue", "I", "121.07 134.08", CELSIUS)));
        assertThat(refusal(without))
                .isEqualTo(
                        "CERTIFICATE-015 logger.xml: result 1 'Comparison in the bath' states no U and no k at reference 121 °C. If"
                                + " the certificate says it in words or on paper, add it: U: 0.06 K and k: 2.");
        expanded = Optional.of(0.06);
        assertThat(refusal(without)).contains("states no k at reference 121 °C").endsWith("add it: k: 2.");
        factor = Optional.of(2.0);
        assertThat(choose(without).certificate().points()).isEqualTo(POINTS);
    }

    @Test
    void what_the_certificate_states_is_not_overridden() throws Exception {
        factor = Optional.of(3.0);
        assertThat(refusal(new DccSample()))
                .isEqualTo(
                        "CERTIFICATE-017 logger.xml: result 1 'Comparison in the bath' states k = 2, the visit says 3. The"
                                + " certificate is not overridden: remove k from the visit.");
        factor = Optional.of(2.0);
        assertThat(choose(new DccSample()).certificate().points()).isEqualTo(POINTS);
    }

    @Test
    void points_are_sorted_and_two_rows_of_one_indication_become_one() throws Exception {
        CertificateChoice.Chosen chosen = choose(new DccSample()
                .data(table(
                        column("basic_referenceValue", "R", "134.00 121.00 121.12", CELSIUS),
                        column(
                                "basic_measuredValue",
                                "I",
                                "134.08 121.07 121.07",
                                CELSIUS,
                                expanded("0.06", "2", "")))));
        assertThat(chosen.certificate().points()).hasSize(2);
        CalibrationPoint merged = chosen.certificate().points().get(0);
        assertThat(merged.reference()).isEqualTo(121.06);
        assertThat(merged.indicated()).isEqualTo(121.07);
        assertThat(merged.expandedUncertainty())
                .as("2 × √(0.03² + (0.06/√3)²), by hand")
                .isCloseTo(0.0917, org.assertj.core.api.Assertions.within(1e-4));
        assertThat(ids(chosen)).isEqualTo("[CERTIFICATE-035]");
    }
}
