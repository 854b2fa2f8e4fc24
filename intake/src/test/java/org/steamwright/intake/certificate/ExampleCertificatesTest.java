package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.Source;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.calibration.CertificateFile.Signature;
import org.steamwright.intake.certificate.ResultTable.Stage;
import org.w3c.dom.ls.DOMImplementationLS;
import org.w3c.dom.ls.LSInput;

/**
 * The example certificates that the authors of the schema have published, read with the values that stand in their text.
 *
 * @see <a href="https://ptb.de/dcc">the schema</a>; where the files come from says the note beside the data
 */
class ExampleCertificatesTest {

    private static final String AS_LEFT = "33.098/33.17/U0.061/k2 99.971/100.06/U0.061/k2 175.103/175.21/U0.061/k2"
            + " 250.169/250.16/U0.061/k2 320.004/319.92/U0.061/k2";
    private static final String SIGNED = "dcc_gp_temperature_typical_v12_signed.xml";
    private static final String CHANGED = "dcc_gp_temperature_typical_v12_signed_manipulated.xml";
    private static final String NEWER = "dcc_gp_temperature_typical_v12_v3.2.0_signed.xml";

    private static DigitalCertificate read(String name) throws Exception {
        Path file = OutsideCertificates.path(name);
        return DigitalCertificates.read(file, TrustAnchors.of(file.getParent()));
    }

    private static String ids(DigitalCertificate certificate) {
        return certificate.remarks().stream()
                .map(remark -> remark.id().substring("CERTIFICATE-".length()))
                .distinct()
                .sorted()
                .toList()
                .toString();
    }

    @ParameterizedTest
    @CsvSource({
        "dcc_gp_temperature_simplified_v12.xml, GP_DCC_temperature_minimal_1.2, '[038]'",
        "dcc_gp_temperature_typical_v12.xml, GP_DCC_temperature_typical_1.2, '[036, 038]'",
    })
    void reads_a_temperature_sensor(String name, String number, String remarks) throws Exception {
        DigitalCertificate certificate = read(name);
        assertThat(certificate.schemaVersion()).isEqualTo("3.1.1");
        assertThat(certificate.number()).isEqualTo(number);
        assertThat(certificate.laboratory()).isEqualTo("Kalibrierfirma GmbH");
        assertThat(certificate.calibratedOn()).isEqualTo(LocalDate.of(1957, 8, 13));
        assertThat(certificate.recalibrateBy()).contains(LocalDate.of(1959, 10, 22));
        assertThat(certificate.items()).hasSize(1);
        assertThat(certificate.items().get(0).name()).isEqualTo("Temperature sensor");
        assertThat(certificate.items().get(0).identifications())
                .extracting(Identification::value)
                .containsExactly(
                        "string-manufacturer-item", "string-customer-item", "string-calibrationLaboratory-item");
        assertThat(certificate.tables()).hasSize(1);
        ResultTable table = certificate.tables().get(0);
        assertThat(table.kind()).isEqualTo(MeasuredKind.TEMPERATURE);
        assertThat(DigitalCertificatesTest.rows(table)).isEqualTo(AS_LEFT);
        assertThat(table.points().get(0).probability()).contains(0.95);
        assertThat(table.points().get(0).distribution()).isEqualTo("normal");
        assertThat(table.points())
                .extracting(TablePoint::error)
                .as("the errors as the file has them")
                .containsExactly(0.072, 0.089, 0.107, -0.009, -0.084);
        assertThat(table.points().get(0).conformity()).isEqualTo("pass");
        assertThat(table.points().get(0).acceptance()).isEqualTo("from -0.23 to 0.23 K");
        assertThat(table.points().get(4).acceptance()).isEqualTo("from -0.3 to 0.3 K");
        assertThat(table.whyNotUsed()).isEmpty();
        assertThat(certificate.signature().answer()).isEqualTo(Signature.NOT_SIGNED);
        assertThat(certificate.conditions())
                .anySatisfy(line -> assertThat(line)
                        .startsWith(
                                "Ambient condition temperature: temperature min 19.85 °C; temperature max 25.85 °C"))
                .anySatisfy(line -> assertThat(line)
                        .startsWith("Ambient condition relative humidity: humidity min 20 %; humidity max 70 %"));
        assertThat(ids(certificate)).isEqualTo(remarks);
    }

    @Test
    void keeps_the_state_before_the_adjustment_beside_the_one_after() throws Exception {
        DigitalCertificate certificate = read("dcc_gp_temperature_typical_adjustment_v12.xml");
        assertThat(certificate.tables()).extracting(ResultTable::stage).containsExactly(Stage.BEFORE, Stage.AFTER);
        assertThat(DigitalCertificatesTest.rows(certificate.tables().get(0)))
                .isEqualTo("33.095/33.2/U0.89/k2 99.977/100.3/U0.89/k2 175.099/174.9/U0.89/k2"
                        + " 250.171/249.9/U0.89/k2 320.001/320.2/U0.89/k2");
        assertThat(certificate.tables().get(0).points())
                .extracting(TablePoint::error)
                .containsExactly(0.105, 0.323, -0.199, -0.271, 0.199);
        assertThat(DigitalCertificatesTest.rows(certificate.tables().get(1))).isEqualTo(AS_LEFT);
        assertThat(certificate.tables().get(0).points().get(3).acceptance()).isEqualTo("from -0.9 to 0.9 K");
    }

    @Test
    void reads_a_sensor_in_ohm_and_says_that_it_corrects_no_degrees() throws Exception {
        DigitalCertificate certificate = read("dcc_gp_temperatur_resistance_v12.xml");
        assertThat(certificate.tables()).hasSize(2);
        ResultTable table = certificate.tables().get(0);
        assertThat(table.kind()).isEqualTo(MeasuredKind.RESISTANCE);
        assertThat(table.referenceUnit()).isEqualTo("°C");
        assertThat(table.indicatedUnit()).isEqualTo("Ω");
        assertThat(DigitalCertificatesTest.rows(table))
                .isEqualTo("-0.001/100.022/U0.0039/k2 10.001/103.9329/U0.0041/k2 20.001/107.83/U0.0042/k2"
                        + " 29.999/111.713/U0.0044/k2 39.999/115.5841/U0.0045/k2 49.999/119.4422/U0.0047/k2"
                        + " 60/123.288/U0.0048/k2 30.001/111.7131/U0.0044/k2 0.001/100.0224/U0.0039/k2");
        assertThat(table.whyNotUsed().orElse("")).contains("resistance of the sensor over temperature");
        assertThat(certificate.tables().get(1).figures())
                .as("coefficients of Callendar and Van Dusen")
                .containsExactly(
                        "R_{0}: 100.0225 Ω", "A: 0.0039155 \\kelvin\\tothe{-1}", "B: -0.000000647 \\kelvin\\tothe{-2}");
    }

    @Test
    void reads_humidity_of_two_items_and_does_not_use_it() throws Exception {
        DigitalCertificate certificate = read("dcc_gp_humidity_v1.0.xml");
        assertThat(certificate.schemaVersion()).isEqualTo("3.1.2");
        assertThat(certificate.calibratedOn()).isEqualTo(LocalDate.of(1957, 8, 14));
        assertThat(certificate.items())
                .extracting(CalibratedItem::name)
                .containsExactly("Display unit", "Humidity sensor");
        ResultTable table = certificate.tables().get(0);
        assertThat(table.kind()).isEqualTo(MeasuredKind.HUMIDITY);
        assertThat(DigitalCertificatesTest.rows(table))
                .isEqualTo("20.1/19.7/U0.6/k2 50/49.9/U0.8/k2 80/80.3/U1/k2 90.1/91.2/U1.1/k2 80.1/81.3/U1/k2"
                        + " 50/50.6/U0.8/k2 20/19.7/U0.6/k2");
        assertThat(table.points()).extracting(TablePoint::error).containsExactly(-0.4, -0.1, 0.3, 1.1, 1.2, 0.6, -0.3);
        assertThat(table.points().get(0).tolerance()).isEqualTo("from -2.2 to 2.2 %");
        assertThat(table.whyNotUsed()).contains("nothing of a cycle is judged by humidity.");
        assertThat(certificate.conditions()).contains("Reference value gas temperature: 20, 20, 20, 20, 20, 20, 20 °C");
        assertThat(ids(certificate)).isEqualTo("[032, 036, 038]");
    }

    @ParameterizedTest
    @CsvSource({SIGNED + ", GOOD, 3.1.1", CHANGED + ", BAD, 3.1.1", NEWER + ", GOOD, 3.2.0"})
    void answers_the_signed_examples(String name, Signature answer, String version) throws Exception {
        DigitalCertificate certificate = read(name);
        assertThat(certificate.signature().answer()).isEqualTo(answer);
        assertThat(certificate.signature().signer()).isEqualTo("Calibration Lab A1");
        assertThat(certificate.schemaVersion()).isEqualTo(version);
        assertThat(ids(certificate).contains("031"))
                .as("a newer schema is said")
                .isEqualTo(version.equals("3.2.0"));
        assertThat(ids(certificate).contains("039"))
                .as("a bad signature is said")
                .isEqualTo(answer == Signature.BAD);
        assertThat(DigitalCertificatesTest.rows(certificate.tables().get(0))).isEqualTo(AS_LEFT);
    }

    @Test
    void trusts_the_signer_through_those_who_vouch_for_it_and_nobody_else(@TempDir Path folder) throws Exception {
        Path signed = OutsideCertificates.path(SIGNED);
        assertThat(DigitalCertificates.read(signed, TrustAnchors.NONE)
                        .signature()
                        .answer())
                .isEqualTo(Signature.UNKNOWN_SIGNER);
        Files.copy(OutsideCertificates.path("root.crt"), folder.resolve("root.crt"));
        assertThat(DigitalCertificates.read(signed, TrustAnchors.of(folder))
                        .signature()
                        .answer())
                .as("the link between the two is missing")
                .isEqualTo(Signature.UNKNOWN_SIGNER);
        Files.copy(OutsideCertificates.path("sub.crt"), folder.resolve("sub.crt"));
        CertificateSignature good =
                DigitalCertificates.read(signed, TrustAnchors.of(folder)).signature();
        assertThat(good.answer()).isEqualTo(Signature.GOOD);
        assertThat(good.text())
                .isEqualTo(
                        "The file is as Calibration Lab A1 signed it; trusted through Calibration Community Sub CA 01."
                                + " Its certificate runs from 2021-12-02 to 2024-12-02, signed on 2022-10-21 as the signature itself"
                                + " claims. Whether it was withdrawn is not asked.");
    }

    /** The schema is asked by tests only, never by the program. */
    private static Schema schema(String version) throws Exception {
        Path units = OutsideCertificates.path("SI_Format.xsd");
        DOMImplementationLS dom = (DOMImplementationLS) DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .getDOMImplementation()
                .getFeature("LS", "3.0");
        SchemaFactory factory = SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI);
        factory.setProperty(XMLConstants.ACCESS_EXTERNAL_SCHEMA, "file");
        factory.setResourceResolver((type, namespace, publicId, systemId, base) -> {
            if (!"https://ptb.de/si".equals(namespace)) {
                return null;
            }
            LSInput input = dom.createLSInput();
            input.setSystemId(units.toUri().toString());
            return input;
        });
        return factory.newSchema(
                OutsideCertificates.path("dcc_v" + version + ".xsd").toFile());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "dcc_gp_temperature_simplified_v12.xml",
                "dcc_gp_temperature_typical_v12.xml",
                "dcc_gp_temperature_typical_adjustment_v12.xml",
                "dcc_gp_temperatur_resistance_v12.xml"
            })
    void the_examples_keep_the_schema(String name) throws Exception {
        Source file = new StreamSource(OutsideCertificates.path(name).toFile());
        assertThatCode(() -> schema("3.1.1").newValidator().validate(file)).doesNotThrowAnyException();
    }
}
