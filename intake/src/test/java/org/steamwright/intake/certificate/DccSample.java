package org.steamwright.intake.certificate;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A small invented certificate under construction: two points of a logger, calibrated on 2026-02-10. */
public final class DccSample {

    static final String TWO_POINTS = table(
            column("basic_referenceValue", "Reference value", "121.00 134.00", "\\degreecelsius"),
            column("basic_measuredValue", "Indicated", "121.07 134.08", "\\degreecelsius"),
            column("basic_measurementError", "Error", "0.07 0.08", "\\kelvin", expanded("0.06", "2", "0.95")));

    private String version = "3.1.1";
    private String before = "";
    private String statements = "";
    private String conditions = "";
    private String dates = "<dcc:beginPerformanceDate>2026-02-09</dcc:beginPerformanceDate>"
            + "<dcc:endPerformanceDate>2026-02-10</dcc:endPerformanceDate>";
    private String items = item("", "SN-2207", "TL-07");
    private String results = result("", "Comparison in the bath", TWO_POINTS);
    private String more = "";

    DccSample version(String text) {
        version = text;
        return this;
    }

    DccSample comment(String text) {
        before += "<!-- " + text + " -->";
        return this;
    }

    DccSample statement(String refType, String inside) {
        statements += "<dcc:statement refType=\"" + refType + "\">" + inside + "</dcc:statement>";
        return this;
    }

    /** The day by which the owner wants it back at the laboratory. */
    DccSample due(String day) {
        return statement("basic_recalibration", "<dcc:date>" + day + "</dcc:date>");
    }

    DccSample condition(String refType, String status, String data) {
        conditions += "<dcc:influenceCondition refType=\"" + refType + "\"><dcc:name><dcc:content>" + refType
                + "</dcc:content></dcc:name>"
                + (status.isEmpty() ? "" : "<dcc:status>" + status + "</dcc:status>") + data
                + "</dcc:influenceCondition>";
        return this;
    }

    DccSample dates(String text) {
        dates = text;
        return this;
    }

    public DccSample items(String... all) {
        items = String.join("", all);
        return this;
    }

    DccSample results(String... all) {
        results = String.join("", all);
        return this;
    }

    /** The only result, as data. */
    DccSample data(String data) {
        return results(result("", "Comparison in the bath", data));
    }

    DccSample more(String text) {
        more += text;
        return this;
    }

    public static String item(String id, String serial, String customers) {
        return "<dcc:item" + (id.isEmpty() ? "" : " id=\"" + id + "\"")
                + "><dcc:name><dcc:content lang=\"de\">Datenlogger</dcc:content><dcc:content lang=\"en\">Data logger</dcc:content>"
                + "</dcc:name><dcc:manufacturer><dcc:name><dcc:content>Example Works (invented)</dcc:content></dcc:name>"
                + "</dcc:manufacturer><dcc:model>Bench 1</dcc:model><dcc:identifications>"
                + identification("manufacturer", serial, "Serial no.")
                + identification("customer", customers, "Own no.")
                + "</dcc:identifications></dcc:item>";
    }

    private static String identification(String issuer, String value, String name) {
        return "<dcc:identification><dcc:issuer>" + issuer + "</dcc:issuer><dcc:value>" + value
                + "</dcc:value><dcc:name><dcc:content>" + name + "</dcc:content></dcc:name></dcc:identification>";
    }

    static String result(String attributes, String title, String data) {
        return "<dcc:result " + attributes + "><dcc:name><dcc:content>" + title + "</dcc:content></dcc:name>" + data
                + "</dcc:result>";
    }

    static String table(String... columns) {
        return "<dcc:data><dcc:list>\n" + String.join("\n", columns) + "\n</dcc:list></dcc:data>";
    }

    static String column(String refType, String name, String values, String unit) {
        return column(refType, name, values, unit, "");
    }

    static String column(String refType, String name, String values, String unit, String uncertainty) {
        return quantity(refType, name, list(values, unit, uncertainty));
    }

    static String quantity(String refType, String name, String inside) {
        return "<dcc:quantity" + (refType.isEmpty() ? "" : " refType=\"" + refType + "\"") + "><dcc:name><dcc:content>"
                + name + "</dcc:content></dcc:name>" + inside + "</dcc:quantity>";
    }

    static String list(String values, String unit, String uncertainty) {
        return "<si:realListXMLList><si:valueXMLList>" + values + "</si:valueXMLList><si:unitXMLList>" + unit
                + "</si:unitXMLList>" + uncertainty + "</si:realListXMLList>";
    }

    static String expanded(String size, String k, String probability) {
        List<String> parts = new ArrayList<>();
        parts.add("<si:uncertaintyXMLList>" + size + "</si:uncertaintyXMLList>");
        if (!k.isEmpty()) {
            parts.add("<si:coverageFactorXMLList>" + k + "</si:coverageFactorXMLList>");
        }
        if (!probability.isEmpty()) {
            parts.add("<si:coverageProbabilityXMLList>" + probability + "</si:coverageProbabilityXMLList>");
        }
        return "<si:expandedUncXMLList>" + String.join("", parts) + "</si:expandedUncXMLList>";
    }

    /** The newer spelling of the same. */
    static String expandedMu(String size, String k, String probability) {
        return "<si:measurementUncertaintyUnivariateXMLList><si:expandedMUXMLList><si:valueExpandedMUXMLList>" + size
                + "</si:valueExpandedMUXMLList><si:coverageFactorXMLList>" + k
                + "</si:coverageFactorXMLList><si:coverageProbabilityXMLList>" + probability
                + "</si:coverageProbabilityXMLList><si:distributionXMLList>normal</si:distributionXMLList>"
                + "</si:expandedMUXMLList></si:measurementUncertaintyUnivariateXMLList>";
    }

    /** The XML. */
    public String text() {
        return """
                <?xml version="1.0" encoding="UTF-8"?>
                %s<dcc:digitalCalibrationCertificate xmlns:dcc="https://ptb.de/dcc" xmlns:si="https://ptb.de/si" schemaVersion="%s">
                <dcc:administrativeData>
                <dcc:dccSoftware><dcc:software><dcc:name><dcc:content>by hand</dcc:content></dcc:name><dcc:release>1</dcc:release></dcc:software></dcc:dccSoftware>
                <dcc:coreData>
                <dcc:countryCodeISO3166_1>AU</dcc:countryCodeISO3166_1><dcc:usedLangCodeISO639_1>en</dcc:usedLangCodeISO639_1><dcc:mandatoryLangCodeISO639_1>en</dcc:mandatoryLangCodeISO639_1>
                <dcc:uniqueIdentifier>K-2026-0118</dcc:uniqueIdentifier>
                %s
                <dcc:performanceLocation>laboratory</dcc:performanceLocation>
                </dcc:coreData>
                <dcc:items>%s</dcc:items>
                <dcc:calibrationLaboratory><dcc:contact><dcc:name><dcc:content>Example Calibration (invented)</dcc:content></dcc:name></dcc:contact></dcc:calibrationLaboratory>
                <dcc:statements>%s</dcc:statements>
                </dcc:administrativeData>
                <dcc:measurementResults>
                <dcc:measurementResult>
                <dcc:name><dcc:content>Results</dcc:content></dcc:name>
                <dcc:influenceConditions>%s</dcc:influenceConditions>
                <dcc:results>%s</dcc:results>
                </dcc:measurementResult>
                </dcc:measurementResults>
                %s</dcc:digitalCalibrationCertificate>
                """.formatted(before, version, dates, items, statements, conditions, results, more);
    }

    byte[] bytes() {
        return text().getBytes(StandardCharsets.UTF_8);
    }

    DigitalCertificate read() throws UnreadableCertificateException {
        return DigitalCertificates.read(bytes(), "logger.xml", TrustAnchors.NONE);
    }
}
