package org.steamwright.simulator;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;

/**
 * The certificate of a simulated instrument as a digital calibration certificate, schema 3.1.1, that says of itself that it
 * is invented.
 *
 * @source the open schema of digital calibration certificates, version 3.1.1: names and order of the elements
 */
public final class CertificateXml {

    /** First comment of every simulated certificate. */
    public static final String MARK = "Steamwright simulated certificate - invented data, not a real certificate";

    private CertificateXml() {}

    /**
     * The certificate of an instrument.
     *
     * @param instrument with a certificate; its id becomes the customer's number of the item
     * @return the bytes of the file, in UTF-8, the same on every machine
     */
    public static byte[] write(ReferenceInstrument instrument) {
        CalibrationCertificate certificate = instrument
                .certificate()
                .orElseThrow(() -> new IllegalArgumentException(instrument.id() + " has no certificate to write"));
        boolean isTemperature = instrument.quantity() == Quantity.TEMPERATURE;
        String unit = isTemperature ? "\\degreecelsius" : "\\kilo\\pascal";
        String difference = isTemperature ? "\\kelvin" : "\\kilo\\pascal";
        List<CalibrationPoint> points = certificate.points();
        return """
                <?xml version="1.0" encoding="UTF-8"?>
                <!-- %s -->
                <dcc:digitalCalibrationCertificate xmlns:dcc="https://ptb.de/dcc" xmlns:si="https://ptb.de/si" schemaVersion="3.1.1">
                  <dcc:administrativeData>
                    <dcc:dccSoftware>
                      <dcc:software>
                        <dcc:name><dcc:content>Steamwright simulator</dcc:content></dcc:name>
                        <dcc:release>1</dcc:release>
                      </dcc:software>
                    </dcc:dccSoftware>
                    <dcc:coreData>
                      <dcc:countryCodeISO3166_1>AU</dcc:countryCodeISO3166_1>
                      <dcc:usedLangCodeISO639_1>en</dcc:usedLangCodeISO639_1>
                      <dcc:mandatoryLangCodeISO639_1>en</dcc:mandatoryLangCodeISO639_1>
                      <dcc:uniqueIdentifier>%s</dcc:uniqueIdentifier>
                      <dcc:beginPerformanceDate>%s</dcc:beginPerformanceDate>
                      <dcc:endPerformanceDate>%s</dcc:endPerformanceDate>
                      <dcc:performanceLocation>laboratory</dcc:performanceLocation>
                    </dcc:coreData>
                    <dcc:items>
                      <dcc:item>
                        <dcc:name><dcc:content lang="en">%s</dcc:content></dcc:name>
                        <dcc:manufacturer><dcc:name><dcc:content>Example Works (invented)</dcc:content></dcc:name></dcc:manufacturer>
                        <dcc:identifications>
                          <dcc:identification>
                            <dcc:issuer>customer</dcc:issuer>
                            <dcc:value>%s</dcc:value>
                            <dcc:name><dcc:content lang="en">Equipment no.</dcc:content></dcc:name>
                          </dcc:identification>
                        </dcc:identifications>
                      </dcc:item>
                    </dcc:items>
                    <dcc:calibrationLaboratory>
                      <dcc:contact>
                        <dcc:name><dcc:content>%s</dcc:content></dcc:name>
                        <dcc:eMail>nobody@example.org</dcc:eMail>
                        <dcc:location><dcc:city>Sampleton</dcc:city></dcc:location>
                      </dcc:contact>
                    </dcc:calibrationLaboratory>
                    <dcc:respPersons>
                      <dcc:respPerson>
                        <dcc:person><dcc:name><dcc:content>Robin Example (invented)</dcc:content></dcc:name></dcc:person>
                      </dcc:respPerson>
                    </dcc:respPersons>
                    <dcc:customer>
                      <dcc:name><dcc:content>Example Service Co (invented)</dcc:content></dcc:name>
                      <dcc:eMail>nobody@example.org</dcc:eMail>
                      <dcc:location><dcc:city>Sampleton</dcc:city></dcc:location>
                    </dcc:customer>
                    <dcc:statements>
                      <dcc:statement refType="basic_recalibration">
                        <dcc:declaration><dcc:content lang="en">To be calibrated again by this day, as the owner has laid down</dcc:content></dcc:declaration>
                        <dcc:date>%s</dcc:date>
                      </dcc:statement>
                    </dcc:statements>
                  </dcc:administrativeData>
                  <dcc:measurementResults>
                    <dcc:measurementResult>
                      <dcc:name><dcc:content lang="en">Comparison with a standard</dcc:content></dcc:name>
                      <dcc:results>
                        <dcc:result>
                          <dcc:name><dcc:content lang="en">Calibration points</dcc:content></dcc:name>
                          <dcc:data>
                            <dcc:list>
                              <dcc:quantity refType="basic_referenceValue">
                                <dcc:name><dcc:content lang="en">Reference value</dcc:content></dcc:name>
                                <si:realListXMLList>
                                  <si:valueXMLList>%s</si:valueXMLList>
                                  <si:unitXMLList>%s</si:unitXMLList>
                                </si:realListXMLList>
                              </dcc:quantity>
                              <dcc:quantity refType="basic_measuredValue">
                                <dcc:name><dcc:content lang="en">Indicated value</dcc:content></dcc:name>
                                <si:realListXMLList>
                                  <si:valueXMLList>%s</si:valueXMLList>
                                  <si:unitXMLList>%s</si:unitXMLList>
                                </si:realListXMLList>
                              </dcc:quantity>
                              <dcc:quantity refType="basic_measurementError">
                                <dcc:name><dcc:content lang="en">Error</dcc:content></dcc:name>
                                <si:realListXMLList>
                                  <si:valueXMLList>%s</si:valueXMLList>
                                  <si:unitXMLList>%s</si:unitXMLList>
                                  <si:expandedUncXMLList>
                                    <si:uncertaintyXMLList>%s</si:uncertaintyXMLList>
                                    <si:coverageFactorXMLList>%s</si:coverageFactorXMLList>
                                    <si:coverageProbabilityXMLList>0.95</si:coverageProbabilityXMLList>
                                  </si:expandedUncXMLList>
                                </si:realListXMLList>
                              </dcc:quantity>
                            </dcc:list>
                          </dcc:data>
                        </dcc:result>
                      </dcc:results>
                    </dcc:measurementResult>
                  </dcc:measurementResults>
                </dcc:digitalCalibrationCertificate>
                """.formatted(
                        MARK,
                        escaped(certificate.number()),
                        certificate.calibratedOn(),
                        certificate.calibratedOn(),
                        escaped(instrument.description().isBlank() ? "Logger" : instrument.description()),
                        escaped(instrument.id()),
                        escaped(certificate.laboratory()),
                        certificate.dueOn(),
                        list(points, CalibrationPoint::reference),
                        unit,
                        list(points, CalibrationPoint::indicated),
                        unit,
                        list(points, point -> -point.correction()),
                        difference,
                        list(points, CalibrationPoint::expandedUncertainty),
                        list(points, CalibrationPoint::coverageFactor))
                .getBytes(StandardCharsets.UTF_8);
    }

    private static String list(List<CalibrationPoint> points, ToDoubleFunction<CalibrationPoint> figure) {
        return points.stream()
                .map(point -> {
                    BigDecimal plain = BigDecimal.valueOf(Math.rint(figure.applyAsDouble(point) * 1e6) / 1e6)
                            .stripTrailingZeros();
                    return plain.signum() == 0 ? "0" : plain.toPlainString();
                })
                .collect(Collectors.joining(" "));
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
