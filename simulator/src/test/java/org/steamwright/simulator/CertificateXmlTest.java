package org.steamwright.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.w3c.dom.ls.DOMImplementationLS;
import org.w3c.dom.ls.LSInput;

class CertificateXmlTest {

    private static ReferenceInstrument instrument(Quantity quantity) {
        return DemoRun.all().get(2).simulated().testRun().instruments().values().stream()
                .filter(one -> one.quantity() == quantity)
                .findFirst()
                .orElseThrow();
    }

    /** The schema lies beside the checkout and is never copied into it. */
    private static Path outside(String name) {
        Path file = Path.of(System.getProperty("steamwright.data", ""))
                .resolve("dcc")
                .resolve(name);
        Assumptions.assumeTrue(
                Files.exists(file),
                "outside data 'dcc/" + name
                        + "' is not beside this checkout (system property steamwright.data); skipped");
        return file;
    }

    private static Schema schema() throws Exception {
        Path units = outside("SI_Format.xsd");
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
        return factory.newSchema(outside("dcc_v3.1.1.xsd").toFile());
    }

    @ParameterizedTest
    @EnumSource(
            value = Quantity.class,
            names = {"TEMPERATURE", "PRESSURE"})
    void keeps_the_open_schema(Quantity quantity) throws Exception {
        StreamSource file = new StreamSource(new ByteArrayInputStream(CertificateXml.write(instrument(quantity))));
        assertThatCode(() -> schema().newValidator().validate(file)).doesNotThrowAnyException();
    }

    @Test
    void says_that_it_is_invented_and_is_the_same_every_time() {
        byte[] bytes = CertificateXml.write(instrument(Quantity.TEMPERATURE));
        assertThat(new String(bytes, StandardCharsets.UTF_8).lines().skip(1).findFirst())
                .contains("<!-- " + CertificateXml.MARK + " -->");
        assertThat(CertificateXml.write(instrument(Quantity.TEMPERATURE))).isEqualTo(bytes);
    }
}
