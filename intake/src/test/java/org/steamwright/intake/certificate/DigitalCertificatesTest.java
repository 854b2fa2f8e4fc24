package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.steamwright.intake.certificate.DccSample.TWO_POINTS;
import static org.steamwright.intake.certificate.DccSample.column;
import static org.steamwright.intake.certificate.DccSample.expanded;
import static org.steamwright.intake.certificate.DccSample.expandedMu;
import static org.steamwright.intake.certificate.DccSample.list;
import static org.steamwright.intake.certificate.DccSample.quantity;
import static org.steamwright.intake.certificate.DccSample.result;
import static org.steamwright.intake.certificate.DccSample.table;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.assessment.remark.Remark;

/** Invented certificates, each with one thing that is different, and what is read from it or said about it. */
class DigitalCertificatesTest {

    private static final String CELSIUS = "\\degreecelsius";

    @TempDir
    Path folder;

    @Test
    void reads_an_ordinary_certificate_whole() throws Exception {
        DigitalCertificate certificate = new DccSample()
                .due("2027-02-10")
                .condition("basic_temperature", "", "<dcc:data>" + column("", "air", "22.5", CELSIUS) + "</dcc:data>")
                .read();
        assertThat(certificate.number()).isEqualTo("K-2026-0118");
        assertThat(certificate.laboratory()).isEqualTo("Example Calibration (invented)");
        assertThat(certificate.calibratedOn()).isEqualTo(LocalDate.of(2026, 2, 10));
        assertThat(certificate.recalibrateBy()).contains(LocalDate.of(2027, 2, 10));
        assertThat(certificate.issuedOn()).isEmpty();
        assertThat(certificate.items())
                .containsExactly(new CalibratedItem(
                        "",
                        "Data logger",
                        "Example Works (invented)",
                        "Bench 1",
                        List.of(
                                new Identification("manufacturer", "Serial no.", "SN-2207"),
                                new Identification("customer", "Own no.", "TL-07"))));
        assertThat(certificate.conditions()).containsExactly("basic_temperature: air 22.5 °C");
        assertThat(certificate.statements()).containsExactly("date: 2027-02-10");
        assertThat(certificate.tables()).hasSize(1);
        ResultTable table = certificate.tables().get(0);
        assertThat(table.kind()).isEqualTo(MeasuredKind.TEMPERATURE);
        assertThat(table.stage()).isEqualTo(ResultTable.Stage.PLAIN);
        assertThat(table.whyNotUsed()).isEmpty();
        assertThat(rows(table)).isEqualTo("121/121.07/U0.06/k2 134/134.08/U0.06/k2");
        assertThat(table.points().get(0).probability()).contains(0.95);
        assertThat(table.points().get(1).error()).isEqualTo(0.08);
        assertThat(certificate.remarks()).isEmpty();
        assertThat(certificate.isSimulated()).isFalse();
        assertThat(certificate.sha256()).matches("[0-9a-f]{64}");
    }

    /** Tables that say the same in other ways, and what their rows must be. */
    static Stream<Arguments> tables() {
        String reference = column("basic_referenceValue", "R", "121.00 134.00", CELSIUS);
        String indicated = column("basic_measuredValue", "I", "121.07 134.08", CELSIUS, expanded("0.06", "2", ""));
        String usual = "121/121.07/U0.06/k2 134/134.08/U0.06/k2";
        return Stream.of(
                Arguments.of("reference and indicated alone", table(reference, indicated), usual),
                Arguments.of(
                        "error instead of indication",
                        table(
                                reference,
                                column(
                                        "basic_measurementError",
                                        "E",
                                        "0.07 0.08",
                                        "\\kelvin",
                                        expanded("0.06", "2", ""))),
                        usual),
                Arguments.of(
                        "error instead of reference",
                        table(indicated, column("basic_measurementError", "E", "0.07 0.08", "\\kelvin")),
                        usual),
                Arguments.of(
                        "correction instead of indication: the other sign",
                        table(
                                reference,
                                column("basic_correction", "C", "-0.07 -0.08", "\\kelvin", expanded("0.06", "2", ""))),
                        usual),
                Arguments.of(
                        "correction instead of reference: the other sign",
                        table(indicated, column("basic_correction", "C", "-0.07 -0.08", "\\kelvin")),
                        usual),
                Arguments.of(
                        "the newer spelling of the uncertainty",
                        table(
                                reference,
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "121.07 134.08",
                                        CELSIUS,
                                        expandedMu("0.06", "2", "0.95"))),
                        usual),
                Arguments.of(
                        "a standard uncertainty is one with k = 1",
                        table(
                                reference,
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "121.07 134.08",
                                        CELSIUS,
                                        "<si:measurementUncertaintyUnivariateXMLList><si:standardMUXMLList><si:valueStandardMUXMLList>0.03"
                                                + "</si:valueStandardMUXMLList></si:standardMUXMLList></si:measurementUncertaintyUnivariateXMLList>")),
                        "121/121.07/U0.03/k1 134/134.08/U0.03/k1"),
                Arguments.of(
                        "one U and k for each row",
                        table(
                                reference,
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "121.07 134.08",
                                        CELSIUS,
                                        expanded("0.06 0.08", "2 2.1", ""))),
                        "121/121.07/U0.06/k2 134/134.08/U0.08/k2.1"),
                Arguments.of(
                        "the uncertainty as a column of its own, with k",
                        table(
                                reference,
                                column("basic_measuredValue", "I", "121.07 134.08", CELSIUS),
                                column("basic_expandedUncertainty", "U", "60 80", "\\milli\\kelvin"),
                                column("basic_coverageFactor", "k", "2", "\\one")),
                        "121/121.07/U0.06/k2 134/134.08/U0.08/k2"),
                Arguments.of(
                        "kelvin throughout",
                        table(
                                column("basic_referenceValue", "R", "394.15 407.15", "\\kelvin"),
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "394.22 407.23",
                                        "\\kelvin",
                                        expanded("0.06", "2", ""))),
                        usual),
                Arguments.of(
                        "kelvin and degree Celsius side by side",
                        table(
                                quantity(
                                        "basic_referenceValue",
                                        "R",
                                        "<si:hybrid>" + list("394.15 407.15", "\\kelvin", expanded("0.06", "2", ""))
                                                + list("121.00 134.00", CELSIUS, "") + "</si:hybrid>"),
                                column("basic_measurementError", "E", "0.07 0.08", "\\kelvin")),
                        usual),
                Arguments.of(
                        "errors in millikelvin",
                        table(
                                reference,
                                column(
                                        "basic_measurementError",
                                        "E",
                                        "70 80",
                                        "\\milli\\kelvin",
                                        expanded("60", "2", ""))),
                        usual),
                Arguments.of(
                        "rows in any order stay as they are",
                        table(
                                column("basic_referenceValue", "R", "134.00 20.00 121.00", CELSIUS),
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "134.08 20.02 121.07",
                                        CELSIUS,
                                        expanded("0.06", "2", ""))),
                        "134/134.08/U0.06/k2 20/20.02/U0.06/k2 121/121.07/U0.06/k2"),
                Arguments.of(
                        "pressure in millibar",
                        table(
                                column("basic_referenceValue", "R", "1000.0 3042.0", "\\milli\\bar"),
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "1001.0 3044.0",
                                        "\\milli\\bar",
                                        expanded("2", "2", ""))),
                        "100/100.1/U0.2/k2 304.2/304.4/U0.2/k2"),
                Arguments.of(
                        "pressure in base units",
                        table(
                                column(
                                        "basic_referenceValue",
                                        "R",
                                        "304200",
                                        "\\kilogram\\metre\\tothe{-1}\\second\\tothe{-2}"),
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "304.4",
                                        "\\kilo\\pascal",
                                        expanded("0.2", "2", ""))),
                        "304.2/304.4/U0.2/k2"),
                Arguments.of(
                        "each row in a list of its own",
                        "<dcc:data><dcc:list>" + single("121.00", "121.07") + single("134.00", "134.08")
                                + "</dcc:list></dcc:data>",
                        usual),
                Arguments.of(
                        "one point with single values",
                        "<dcc:data>" + single("121.00", "121.07").replaceAll("</?dcc:list>", "") + "</dcc:data>",
                        "121/121.07/U0.06/k2"),
                Arguments.of(
                        "no uncertainty",
                        table(reference, column("basic_measuredValue", "I", "121.07 134.08", CELSIUS)),
                        "121/121.07/U-/k- 134/134.08/U-/k-"),
                Arguments.of(
                        "no coverage factor",
                        table(
                                reference,
                                column(
                                        "basic_measuredValue",
                                        "I",
                                        "121.07 134.08",
                                        CELSIUS,
                                        expanded("0.06", "", "0.95"))),
                        "121/121.07/U0.06/k- 134/134.08/U0.06/k-"));
    }

    private static String single(String reference, String indicated) {
        return "<dcc:list>"
                + quantity(
                        "basic_referenceValue",
                        "R",
                        "<si:real><si:value>" + reference + "</si:value><si:unit>\\degreecelsius</si:unit></si:real>")
                + quantity(
                        "basic_measuredValue",
                        "I",
                        "<si:real><si:value>" + indicated
                                + "</si:value><si:unit>\\degreecelsius</si:unit><si:expandedUnc><si:uncertainty>0.06</si:uncertainty>"
                                + "<si:coverageFactor>2</si:coverageFactor></si:expandedUnc></si:real>")
                + "</dcc:list>";
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("tables")
    void reads_rows_however_they_are_written(String what, String data, String expected) throws Exception {
        DigitalCertificate certificate = new DccSample().data(data).read();
        assertThat(certificate.tables()).as(what).hasSize(1);
        assertThat(rows(certificate.tables().get(0))).as(what).isEqualTo(expected);
        assertThat(certificate.tables().get(0).whyNotUsed()).as(what).isEmpty();
    }

    /** What is odd, and the remark that has to say it. */
    static Stream<Arguments> remarks() {
        String reference = column("basic_referenceValue", "R", "121.00 134.00", CELSIUS);
        String indicated = column("basic_measuredValue", "I", "121.07 134.08", CELSIUS, expanded("0.06", "2", ""));
        return Stream.of(
                Arguments.of(
                        "an error of the wrong sign",
                        new DccSample()
                                .data(table(
                                        reference,
                                        indicated,
                                        column("basic_measurementError", "E", "-0.07 0.08", "\\kelvin"))),
                        "doubt CERTIFICATE-034",
                        "Row 1: the measurement error is given as -0.07, but reference 121 and indicated 121.07 give 0.07. It has the opposite sign. The pair is used."),
                Arguments.of(
                        "an error that does not follow",
                        new DccSample()
                                .data(table(
                                        reference,
                                        indicated,
                                        column("basic_measurementError", "E", "0.07 0.18", "\\kelvin"))),
                        "doubt CERTIFICATE-034",
                        "Row 2: the measurement error is given as 0.18, but reference 134 and indicated 134.08 give 0.08. The pair is used."),
                Arguments.of(
                        "kelvin and degree Celsius that do not agree",
                        new DccSample()
                                .data(table(
                                        quantity(
                                                "basic_referenceValue",
                                                "R",
                                                "<si:hybrid>" + list("394.15 417.15", "\\kelvin", "")
                                                        + list("121.00 134.00", CELSIUS, "") + "</si:hybrid>"),
                                        indicated)),
                        "doubt CERTIFICATE-034",
                        "The same values are given in \\kelvin and in \\degreecelsius and do not agree: value 2 is 144 °C in the one and 134 °C in the other. Those in \\degreecelsius are used."),
                Arguments.of(
                        "a table without reference types",
                        new DccSample()
                                .data(table(
                                        column("", "Reference value", "121.00 134.00", CELSIUS),
                                        column("", "Indicated", "121.07 134.08", CELSIUS))),
                        "note CERTIFICATE-032",
                        "its columns (Reference value, Indicated) carry no reference type"),
                Arguments.of(
                        "columns of different length",
                        new DccSample().data(table(reference, column("basic_measuredValue", "I", "121.07", CELSIUS))),
                        "note CERTIFICATE-032",
                        "its columns have different numbers of values: 2 of reference value, 1 of measured value."),
                Arguments.of(
                        "two columns of one kind",
                        new DccSample().data(table(reference, indicated, indicated)),
                        "note CERTIFICATE-032",
                        "several of its columns are called measured value"),
                Arguments.of(
                        "a pressure among temperatures",
                        new DccSample()
                                .data(table(reference, column("basic_measuredValue", "I", "121.07 134.08", "\\bar"))),
                        "note CERTIFICATE-032",
                        "its column of reference value is of temperature, the others of pressure"),
                Arguments.of(
                        "a unit nobody knows",
                        new DccSample()
                                .data(table(column("basic_referenceValue", "R", "250 273", "\\degreewarm"), indicated)),
                        "doubt CERTIFICATE-033",
                        "The unit \"\\degreewarm\" is not known."),
                Arguments.of(
                        "a decimal comma",
                        new DccSample()
                                .data(table(column("basic_referenceValue", "R", "121,00 134,00", CELSIUS), indicated)),
                        "doubt CERTIFICATE-033",
                        "Found \"121,00\" as a value, expected a number with a point as decimal mark."),
                Arguments.of(
                        "three uncertainties for two rows",
                        new DccSample()
                                .data(table(
                                        reference,
                                        column(
                                                "basic_measuredValue",
                                                "I",
                                                "121.07 134.08",
                                                CELSIUS,
                                                expanded("0.06 0.06 0.06", "2", "")))),
                        "doubt CERTIFICATE-033",
                        "Found 3 uncertainties for 2 values, expected one for all or one for each."),
                Arguments.of(
                        "an uncertainty below zero",
                        new DccSample()
                                .data(table(
                                        reference,
                                        column(
                                                "basic_measuredValue",
                                                "I",
                                                "121.07 134.08",
                                                CELSIUS,
                                                expanded("-0.06", "2", "")))),
                        "doubt CERTIFICATE-033",
                        "An uncertainty below zero is not possible."),
                Arguments.of(
                        "an uncertainty at the reference only",
                        new DccSample()
                                .data(table(
                                        column(
                                                "basic_referenceValue",
                                                "R",
                                                "121.00 134.00",
                                                CELSIUS,
                                                expanded("0.02", "2", "")),
                                        column("basic_measuredValue", "I", "121.07 134.08", CELSIUS))),
                        "doubt CERTIFICATE-043",
                        "An uncertainty stands at the reference value only."),
                Arguments.of(
                        "a relative uncertainty",
                        new DccSample()
                                .data(
                                        table(
                                                reference,
                                                indicated.replace(
                                                        "</dcc:quantity>",
                                                        "<dcc:relativeUncertainty><dcc:relativeUncertaintySingle/></dcc:relativeUncertainty></dcc:quantity>"))),
                        "doubt CERTIFICATE-033",
                        "The uncertainty of \"I\" is given relative to the value"),
                Arguments.of(
                        "complex numbers",
                        new DccSample().data(table(reference, indicated, quantity("basic_x", "Z", "<si:complex/>"))),
                        "note CERTIFICATE-033",
                        "Found <complex>, complex numbers, which this program does not read."),
                Arguments.of(
                        "a part that is not in the schema",
                        new DccSample().more("<dcc:weather>fine</dcc:weather>"),
                        "note CERTIFICATE-033",
                        "Found <weather>, which is not in the schema 3.x as this program knows it"),
                Arguments.of(
                        "a part of somebody else",
                        new DccSample().more("<note xmlns='urn:example'/>"),
                        "note CERTIFICATE-033",
                        "Found <note> of urn:example"),
                Arguments.of(
                        "a file inside",
                        new DccSample()
                                .more(
                                        "<dcc:document><dcc:fileName>paper.pdf</dcc:fileName><dcc:mimeType>application/pdf</dcc:mimeType>"
                                                + "<dcc:dataBase64>AAAA</dcc:dataBase64></dcc:document>"),
                        "note CERTIFICATE-037",
                        "The certificate carries the file \"paper.pdf\" (application/pdf). It is not opened."),
                Arguments.of(
                        "a minor version whose changes are known",
                        new DccSample().version("3.3.0"),
                        "note CERTIFICATE-031",
                        "The certificate is of schema version 3.3.0, newer than the 3.1"),
                Arguments.of(
                        "a minor version from the future",
                        new DccSample().version("3.9.0"),
                        "doubt CERTIFICATE-031",
                        "and unknown to it. Compare the points with the paper certificate."),
                Arguments.of(
                        "no version at all",
                        new DccSample().version(""),
                        "doubt CERTIFICATE-031",
                        "The version of the schema is \"\""),
                Arguments.of(
                        "an example taken for a certificate",
                        new DccSample().comment("This is not a real calibration certificate."),
                        "doubt CERTIFICATE-038",
                        "A comment in the file says that this is not a real certificate."),
                Arguments.of(
                        "points beyond the stated range",
                        new DccSample()
                                .statement(
                                        "basic_validityRange",
                                        "<dcc:data>" + column("basic_validityRangeMin", "low", "0", CELSIUS)
                                                + column("basic_validityRangeMax", "high", "130", CELSIUS)
                                                + "</dcc:data>"),
                        "note CERTIFICATE-036",
                        "The laboratory states a range from 0 to 130 °C; of result 1 'Comparison in the bath' these reference values lie beyond: 134."),
                Arguments.of(
                        "a statement that it does not conform",
                        new DccSample().statement("basic_conformity", "<dcc:conformity>fail</dcc:conformity>"),
                        "doubt CERTIFICATE-045",
                        "The certificate states as its conformity: fail."),
                Arguments.of(
                        "rows that do not conform",
                        new DccSample()
                                .data(
                                        TWO_POINTS.replace(
                                                "</dcc:list>",
                                                "<dcc:measurementMetaData><dcc:metaData refType=\"basic_conformity\"><dcc:conformityXMLList>pass fail"
                                                        + "</dcc:conformityXMLList></dcc:metaData></dcc:measurementMetaData></dcc:list>")),
                        "doubt CERTIFICATE-045",
                        "The laboratory's statement of conformity on result 1 'Comparison in the bath' (as calibrated) is: fail"),
                Arguments.of(
                        "humidity",
                        new DccSample()
                                .data(table(
                                        column("basic_referenceValue", "R", "0.2 0.5", "\\one"),
                                        column("basic_measuredValue", "I", "20.1 50.2", "\\percent"))),
                        "note CERTIFICATE-032",
                        "nothing of a cycle is judged by humidity"),
                Arguments.of(
                        "a sensor in ohm",
                        new DccSample()
                                .data(table(
                                        column("basic_referenceValue", "R", "0 100", CELSIUS),
                                        column("basic_measuredValue", "I", "100.0 138.5", "\\ohm"))),
                        "note CERTIFICATE-032",
                        "it gives the resistance of the sensor over temperature"),
                Arguments.of(
                        "an earlier certificate",
                        new DccSample()
                                .dates(
                                        "<dcc:endPerformanceDate>2026-02-10</dcc:endPerformanceDate><dcc:previousReport><dcc:referral>"
                                                + "<dcc:content>K-2026-0099</dcc:content></dcc:referral></dcc:previousReport>"),
                        "note CERTIFICATE-044",
                        "The certificate refers to an earlier one (K-2026-0099)."));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("remarks")
    void says_what_is_odd(String what, DccSample sample, String expected, String text) throws Exception {
        List<Remark> remarks = sample.read().remarks();
        assertThat(remarks).as(what + ": " + remarks).anySatisfy(remark -> {
            assertThat(remark.rank().name().toLowerCase(Locale.ROOT) + " " + remark.id())
                    .isEqualTo(expected);
            assertThat(remark.text()).contains(text);
            assertThat(remark.where()).startsWith("logger.xml");
        });
    }

    @Test
    void keeps_both_states_of_an_adjustment() throws Exception {
        String before = table(
                column("basic_referenceValue", "R", "121.00 134.00", CELSIUS),
                column("basic_measuredValue", "I", "121.40 134.60", CELSIUS, expanded("0.06", "2", "")));
        DigitalCertificate certificate = new DccSample()
                .condition("basic_adjustment", "beforeAdjustment", before)
                .read();
        assertThat(certificate.tables().stream().map(ResultTable::stage))
                .containsExactly(ResultTable.Stage.BEFORE, ResultTable.Stage.AFTER);
        assertThat(rows(certificate.tables().get(0))).isEqualTo("121/121.4/U0.06/k2 134/134.6/U0.06/k2");
        assertThat(rows(certificate.tables().get(1))).isEqualTo("121/121.07/U0.06/k2 134/134.08/U0.06/k2");
    }

    @Test
    void a_status_without_figures_is_that_of_the_results() throws Exception {
        DigitalCertificate certificate = new DccSample()
                .condition(
                        "basic_adjustment",
                        "beforeAdjustment",
                        "<dcc:data><dcc:text><dcc:content>not yet</dcc:content></dcc:text></dcc:data>")
                .read();
        assertThat(certificate.tables().stream().map(ResultTable::stage)).containsExactly(ResultTable.Stage.BEFORE);
        assertThat(certificate.conditions()).containsExactly("basic_adjustment (beforeAdjustment)");
    }

    @Test
    void a_result_may_say_itself_when_it_was_measured() throws Exception {
        DigitalCertificate certificate = new DccSample()
                .results(
                        result("refType=\"lab_beforeAdjustment\"", "one", TWO_POINTS),
                        result("refType=\"lab_afterAdjustment\"", "two", TWO_POINTS))
                .read();
        assertThat(certificate.tables().stream().map(ResultTable::stage))
                .containsExactly(ResultTable.Stage.BEFORE, ResultTable.Stage.AFTER);
    }

    @Test
    void lists_with_names_are_tables_of_their_own() throws Exception {
        String channels = ("<dcc:data><dcc:list>" + single("121.00", "121.07") + single("134.00", "134.08")
                        + "</dcc:list></dcc:data>")
                .replaceFirst(
                        "<dcc:list><dcc:list>",
                        "<dcc:list><dcc:list><dcc:name><dcc:content>channel 1</dcc:content></dcc:name>");
        List<ResultTable> tables = new DccSample().data(channels).read().tables();
        assertThat(tables).hasSize(2);
        assertThat(tables.get(0).title()).isEqualTo("Comparison in the bath, channel 1");
    }

    @Test
    void marks_what_it_was_told_is_invented() throws Exception {
        DigitalCertificate certificate = new DccSample()
                .comment("Steamwright simulated certificate - invented data, not a real certificate")
                .read();
        assertThat(certificate.isSimulated()).isTrue();
        assertThat(certificate.remarks()).isEmpty();
    }

    /** Files that give no certificate, and what is said. */
    static Stream<Arguments> refused() {
        String whole = new DccSample().text();
        return Stream.of(
                Arguments.of("", "CERTIFICATE-003 logger.xml, line 1: the file has 0 bytes."),
                Arguments.of(whole.substring(0, whole.length() / 2), "CERTIFICATE-003 logger.xml, line "),
                Arguments.of(
                        "time,T1\n0,134\n", "CERTIFICATE-003 logger.xml, line 1: expected a complete XML document"),
                Arguments.of(
                        "<html/>",
                        "CERTIFICATE-005 logger.xml, line 1: found XML that begins with <html>, expected <digitalCalibrationCertificate>"),
                Arguments.of(
                        whole.replace("https://ptb.de/dcc", "https://example.org/dcc"),
                        "found XML that begins with <digitalCalibrationCertificate> of https://example.org/dcc, expected"),
                Arguments.of(
                        new DccSample().version("2.4.0").text(),
                        "CERTIFICATE-006 logger.xml, line 2: found schema version 2.4.0, expected 3.x."),
                Arguments.of(
                        new DccSample().version("4.0.0").text(),
                        "CERTIFICATE-006 logger.xml, line 2: found schema version 4.0.0"),
                Arguments.of(
                        whole.replaceAll("(?s)<dcc:coreData>.*</dcc:items>", ""),
                        "CERTIFICATE-007 logger.xml: found no coreData/uniqueIdentifier, no coreData/endPerformanceDate (day of the"
                                + " measurements), no items/item (what was calibrated), expected the parts that every certificate has."),
                Arguments.of(
                        new DccSample()
                                .dates("<dcc:endPerformanceDate>10.02.2026</dcc:endPerformanceDate>")
                                .text(),
                        "CERTIFICATE-008 logger.xml, line 8: found \"10.02.2026\" as endPerformanceDate, expected a day such as 2026-02-10."),
                Arguments.of(
                        whole.replaceFirst("\\?>", "?><!DOCTYPE x [<!ENTITY e SYSTEM 'file:///etc/hostname'>]>")
                                .replace("K-2026-0118", "&e;"),
                        "CERTIFICATE-004 logger.xml, line 1: found a document type declaration"),
                Arguments.of(
                        whole.replaceFirst(
                                        "\\?>",
                                        "?><!DOCTYPE x [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>]>")
                                .replace("K-2026-0118", "&b;"),
                        "CERTIFICATE-004 logger.xml, line 1: found a document type declaration"),
                Arguments.of(
                        whole.replace("<dcc:results>", "<dcc:results>" + "<dcc:result>".repeat(80)),
                        "CERTIFICATE-004 logger.xml, line "),
                Arguments.of(
                        whole.replace("<dcc:results>", "<dcc:results>" + "<dcc:result/>".repeat(200_000)),
                        "found more than 200000 elements, comments and instructions."));
    }

    @ParameterizedTest
    @MethodSource("refused")
    void refuses_what_gives_no_certificate(String text, String expected) {
        UnreadableCertificateException refused = catchThrowableOfType(
                UnreadableCertificateException.class,
                () -> DigitalCertificates.read(text.getBytes(StandardCharsets.UTF_8), "logger.xml", TrustAnchors.NONE));
        assertThat(refused).hasMessageContaining(expected);
    }

    @Test
    void refuses_a_huge_file_before_it_is_read() throws Exception {
        Path file = folder.resolve("huge.xml");
        try (java.io.RandomAccessFile huge = new java.io.RandomAccessFile(file.toFile(), "rw")) {
            huge.setLength(DigitalCertificates.LARGEST_FILE_BYTES + 1);
        }
        assertThat(catchThrowableOfType(
                        UnreadableCertificateException.class, () -> DigitalCertificates.read(file, TrustAnchors.NONE)))
                .hasMessageStartingWith(
                        "CERTIFICATE-002 huge.xml: the file has 16777217 bytes, a certificate may have up to 16777216.");
    }

    @Test
    void refuses_a_folder_and_what_is_not_there() {
        assertThat(catchThrowableOfType(
                        UnreadableCertificateException.class,
                        () -> DigitalCertificates.read(folder, TrustAnchors.NONE)))
                .hasMessageContaining("CERTIFICATE-001")
                .hasMessageContaining("this is a folder");
        assertThat(catchThrowableOfType(
                        UnreadableCertificateException.class,
                        () -> DigitalCertificates.read(folder.resolve("x.xml"), TrustAnchors.NONE)))
                .hasMessageContaining("CERTIFICATE-001 x.xml: there is no such file");
    }

    @ParameterizedTest
    @CsvSource({"a.xml, x, true", "a.XML, x, true", "a.txt, <?xml version='1.0'?><a/>, true", "a.csv, 'time,T1', false"
    })
    void knows_xml_by_name_or_by_its_beginning(String name, String text, boolean expected) throws Exception {
        assertThat(DigitalCertificates.isXml(Files.writeString(folder.resolve(name), text)))
                .isEqualTo(expected);
    }

    /** However a file is damaged: a certificate or a refusal, quickly, never anything else. */
    @Test
    void damage_never_brings_it_down() throws Exception {
        Random random = new Random(32);
        byte[] good = new DccSample().due("2027-02-10").bytes();
        Files.createDirectories(folder);
        for (int i = 0; i < 3000; i++) {
            byte[] bytes = good.clone();
            int damages = 1 + random.nextInt(4);
            for (int d = 0; d < damages; d++) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            }
            byte[] damaged =
                    random.nextInt(4) == 0 ? java.util.Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes;
            Optional<DigitalCertificate> read = readOrRefused(damaged);
            read.ifPresent(certificate -> assertThat(certificate.items()).isNotEmpty());
        }
    }

    @Test
    void a_certificate_of_the_largest_size_is_read_quickly() {
        String big = new DccSample()
                .data(table(
                        column("basic_referenceValue", "R", "121.00 ".repeat(700_000), CELSIUS),
                        column("basic_measuredValue", "I", "121.07 ".repeat(700_000), CELSIUS)))
                .text();
        byte[] bytes = big.getBytes(StandardCharsets.UTF_8);
        Assertions.assertTimeout(Duration.ofSeconds(20), () -> readOrRefused(bytes));
    }

    private static Optional<DigitalCertificate> readOrRefused(byte[] bytes) {
        try {
            return Optional.of(DigitalCertificates.read(bytes, "damaged.xml", TrustAnchors.NONE));
        } catch (UnreadableCertificateException refused) {
            return Optional.empty();
        }
    }

    /** Rows in short: reference/indicated/U/k. */
    static String rows(ResultTable table) {
        StringBuilder text = new StringBuilder();
        for (TablePoint point : table.points()) {
            text.append(text.isEmpty() ? "" : " ")
                    .append(SiColumn.print(point.reference()))
                    .append('/')
                    .append(SiColumn.print(point.indicated()))
                    .append("/U")
                    .append(point.expanded().map(SiColumn::print).orElse("-"))
                    .append("/k")
                    .append(point.factor().map(SiColumn::print).orElse("-"));
        }
        return text.toString();
    }
}
