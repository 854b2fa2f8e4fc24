package org.steamwright.intake.certificate;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.xml.XmlElement;

/** The administrative part of a certificate, and the whole put together. */
final class DccReader {

    static final String NAMESPACE = "https://ptb.de/dcc";
    static final String UNITS_NAMESPACE = "https://ptb.de/si";
    private static final String SIGNATURES_NAMESPACE = "http://www.w3.org/2000/09/xmldsig#";

    /** Minor versions 3.x whose examples this reader has been held against. */
    private static final int TRIED_MINOR = 1;

    /** Minor versions 3.x whose changes were known when this was written. */
    private static final int KNOWN_MINOR = 4;

    private static final Pattern VERSION = Pattern.compile("([0-9]{1,3})\\.([0-9]{1,3})(\\..*|-.*)?");

    /** By this a comment of the file says that nothing in it is real. */
    private static final String SIMULATED = "Steamwright simulated certificate";

    /** Names of the schema 3.x; what is not among them is said. */
    private static final Set<String> KNOWN = Set.of(
            ("administrativeData beginPerformanceDate byteData calibrationLaboratory calibrationLaboratoryCode certificate"
                            + " city classID comment conformity conformityXMLList contact content convention coreData"
                            + " countryCode countryCodeISO3166_1 cryptElectronicSeal cryptElectronicSignature"
                            + " cryptElectronicTimeStamp customer data dataBase64 date dateTime dateTimeXMLList dccSoftware"
                            + " declaration description descriptionData digitalCalibrationCertificate document eMail"
                            + " endPerformanceDate equipmentClass fax file fileName formula further identification"
                            + " identifications influenceCondition influenceConditions installedSoftwares issuer issueDate"
                            + " item items latex link linkedReport list location mainSigner mandatoryLangCodeISO639_1"
                            + " manufacturer mathml measurementMetaData measurementResult measurementResults"
                            + " measuringEquipment measuringEquipmentQuantities measuringEquipmentQuantity"
                            + " measuringEquipments metaData mimeType model name noQuantity nonSIDefinition nonSIUnit norm"
                            + " owner performanceLocation period person phone positionCoordinate1 positionCoordinate2"
                            + " positionCoordinate3 positionCoordinateSystem positionCoordinates postCode postOfficeBox"
                            + " previousReport procedure quantity receiptDate reference referral referralID"
                            + " relativeUncertainty relativeUncertaintySingle relativeUncertaintyXmlList release"
                            + " reportAmendedSubstituted replacedUniqueIdentifier respAuthority respPerson respPersons"
                            + " result results role software state statement statements status street streetNo text"
                            + " traceable type typeOfChange uniqueIdentifier usedLangCodeISO639_1 usedMethod usedMethods"
                            + " usedSoftware valid value xml")
                    .split(" "));

    private final String file;
    private final XmlElement root;
    private final List<String> comments;
    private final Notes notes;
    private final SiReader si;
    private final List<String> missing = new ArrayList<>();

    DccReader(String file, XmlElement.Document document, Notes notes) {
        this.file = file;
        this.root = document.root();
        this.comments = document.comments();
        this.notes = notes;
        this.si = new SiReader(notes);
    }

    /** All but the signature, which needs the bytes. */
    DigitalCertificate read(String sha256, CertificateSignature signature) throws UnreadableCertificateException {
        String version = version();
        Optional<XmlElement> core = root.find("administrativeData", "coreData");
        String number = needed(core.flatMap(element -> element.child("uniqueIdentifier")), "coreData/uniqueIdentifier");
        String laboratory = laboratory();
        Optional<LocalDate> from = date(core, "beginPerformanceDate");
        Optional<LocalDate> to = date(core, "endPerformanceDate").or(() -> from);
        if (to.isEmpty()) {
            missing.add("coreData/endPerformanceDate (day of the measurements)");
        }
        List<CalibratedItem> items = items();
        if (items.isEmpty()) {
            missing.add("items/item (what was calibrated)");
        }
        Optional<XmlElement> results = root.child("measurementResults");
        if (results.isEmpty()) {
            missing.add("measurementResults");
        }
        if (!missing.isEmpty()) {
            throw new UnreadableCertificateException(
                    CertificateMessage.PART_MISSING,
                    file,
                    "",
                    "found no " + String.join(", no ", missing)
                            + ", expected the parts that every certificate has. Was the file cut or changed? Ask the laboratory"
                            + " for it again, or type the certificate from paper.");
        }
        ResultReader reader = new ResultReader(notes, si);
        reader.read(results.orElseThrow());
        List<String> statements = new ArrayList<>();
        Optional<LocalDate> recalibrate = Optional.empty();
        for (XmlElement list : root.find("administrativeData").orElse(root).children("statements")) {
            for (XmlElement statement : list.children("statement")) {
                statements.add(reader.statement(statement));
                if (is(statement, "recalibration")) {
                    recalibrate = earlier(recalibrate, date(Optional.of(statement), "date"));
                }
                if (is(statement, "validityrange")) {
                    validity(statement, reader.tables());
                }
                conformity(statement);
            }
        }
        statements.addAll(reader.statements());
        remarks(core, version);
        return new DigitalCertificate(
                file,
                sha256,
                version,
                number,
                laboratory,
                core.map(DccReader::identifications).orElse(List.of()),
                date(core, "issueDate"),
                to.orElseThrow(),
                recalibrate,
                items,
                reader.tables(),
                reader.conditions(),
                statements,
                comments.stream().anyMatch(comment -> comment.strip().startsWith(SIMULATED)),
                signature,
                notes.all());
    }

    private String version() throws UnreadableCertificateException {
        if (!root.name().equals("digitalCalibrationCertificate")
                || !root.namespace().equals(NAMESPACE)) {
            throw new UnreadableCertificateException(
                    CertificateMessage.NOT_A_CERTIFICATE,
                    file,
                    "line " + root.line(),
                    "found XML that begins with <" + root.name() + ">"
                            + (root.namespace().isEmpty() ? "" : " of " + DccText.oneLine(root.namespace()))
                            + ", expected <digitalCalibrationCertificate> of " + NAMESPACE
                            + ". Name the certificate itself, not another file of the laboratory.");
        }
        String version = root.attribute("schemaVersion").map(DccText::oneLine).orElse("");
        Matcher parts = VERSION.matcher(version);
        if (!parts.matches()) {
            notes.add(
                    CertificateMessage.NEWER_SCHEMA,
                    Rank.DOUBT,
                    root,
                    "The version of the schema is \"" + version
                            + "\", expected one such as 3.1.1. The file is read as version 3. Compare with the paper.");
            return version;
        }
        int major = Integer.parseInt(parts.group(1));
        int minor = Integer.parseInt(parts.group(2));
        if (major != 3) {
            throw new UnreadableCertificateException(
                    CertificateMessage.OTHER_MAJOR_VERSION,
                    file,
                    "line " + root.line(),
                    "found schema version " + version
                            + ", expected 3.x. Ask the laboratory for the certificate in version 3,"
                            + " or type it from paper.");
        }
        if (minor > TRIED_MINOR) {
            notes.add(
                    CertificateMessage.NEWER_SCHEMA,
                    minor > KNOWN_MINOR ? Rank.DOUBT : Rank.NOTE,
                    root,
                    "The certificate is of schema version " + version + ", newer than the 3." + TRIED_MINOR
                            + " whose examples this program was held against"
                            + (minor > KNOWN_MINOR
                                    ? ", and unknown to it. Compare the points with the paper certificate."
                                    : ". What it does not know is listed here."));
        }
        return version;
    }

    private String needed(Optional<XmlElement> element, String what) {
        String text = element.map(found -> DccText.oneLine(found.text())).orElse("");
        if (text.isEmpty()) {
            missing.add(what);
        }
        return text;
    }

    private String laboratory() {
        Optional<XmlElement> laboratory = root.find("administrativeData", "calibrationLaboratory");
        String name = DccText.of(laboratory.flatMap(found -> found.find("contact", "name")));
        if (name.isEmpty()) {
            missing.add("calibrationLaboratory/contact/name");
        }
        String code = laboratory
                .flatMap(found -> found.child("calibrationLaboratoryCode"))
                .map(found -> DccText.oneLine(found.text()))
                .orElse("");
        return code.isEmpty() ? name : name + ", " + code;
    }

    private Optional<LocalDate> date(Optional<XmlElement> holder, String name) throws UnreadableCertificateException {
        Optional<XmlElement> element = holder.flatMap(found -> found.child(name));
        if (element.isEmpty() || element.get().text().isEmpty()) {
            return Optional.empty();
        }
        String text = element.get().text();
        try {
            // a day may carry the offset of the zone it was written in; the day itself counts
            return Optional.of(LocalDate.parse(text.replaceFirst("(Z|[+-][0-9]{2}:[0-9]{2})$", "")));
        } catch (DateTimeException unreadable) {
            throw new UnreadableCertificateException(
                    CertificateMessage.NO_DATE,
                    file,
                    "line " + element.get().line(),
                    "found \"" + DccText.oneLine(text) + "\" as " + name
                            + ", expected a day such as 2026-02-10. Ask the laboratory to mend it, or type the certificate"
                            + " from paper.");
        }
    }

    private static Optional<LocalDate> earlier(Optional<LocalDate> one, Optional<LocalDate> other) {
        if (one.isEmpty() || other.isEmpty()) {
            return one.or(() -> other);
        }
        return one.get().isBefore(other.get()) ? one : other;
    }

    private List<CalibratedItem> items() {
        List<CalibratedItem> items = new ArrayList<>();
        for (XmlElement item : root.find("administrativeData", "items")
                .map(list -> list.children("item"))
                .orElse(List.of())) {
            items.add(new CalibratedItem(
                    item.attribute("id").orElse(""),
                    DccText.name(item),
                    DccText.of(item.find("manufacturer", "name")),
                    item.child("model")
                            .map(model -> DccText.oneLine(model.text()))
                            .orElse(""),
                    identifications(item)));
        }
        return items;
    }

    private static List<Identification> identifications(XmlElement holder) {
        List<Identification> all = new ArrayList<>();
        for (XmlElement list : holder.children("identifications")) {
            for (XmlElement one : list.children("identification")) {
                all.add(new Identification(
                        one.child("issuer")
                                .map(issuer -> DccText.oneLine(issuer.text()))
                                .orElse("unknown"),
                        DccText.name(one),
                        one.child("value")
                                .map(value -> DccText.oneLine(value.text()))
                                .orElse("")));
            }
        }
        return all;
    }

    private static boolean is(XmlElement statement, String type) {
        return ResultGroup.types(statement).stream()
                .anyMatch(one -> one.toLowerCase(Locale.ROOT).endsWith(type));
    }

    private void conformity(XmlElement statement) {
        Optional<String> word = statement.child("conformity").map(XmlElement::text);
        if (word.isPresent() && !word.get().equals("pass")) {
            notes.add(
                    CertificateMessage.NOT_CONFORMING,
                    Rank.DOUBT,
                    statement,
                    "The certificate states as its conformity: " + DccText.oneLine(word.get())
                            + ". The points are used as measured; whether the instrument is fit is for you to say.");
        }
        if (statement
                .child("valid")
                .filter(valid -> valid.text().equals("false"))
                .isPresent()) {
            notes.add(
                    CertificateMessage.NOT_CONFORMING,
                    Rank.DOUBT,
                    statement,
                    "A statement of the certificate is marked as not valid: "
                            + DccText.of(statement.child("declaration")) + ". Ask the laboratory what that means.");
        }
    }

    /** The laboratory may say for which range its figures hold; a point beyond is used, and said. */
    private void validity(XmlElement statement, List<ResultTable> tables) {
        Optional<SiColumn> low = limit(statement, "rangemin");
        Optional<SiColumn> high = limit(statement, "rangemax");
        for (ResultTable table : tables) {
            double from = low.filter(one -> one.unit().kind() == kind(table))
                    .map(one -> one.inside().get(0))
                    .orElse(Double.NEGATIVE_INFINITY);
            double to = high.filter(one -> one.unit().kind() == kind(table))
                    .map(one -> one.inside().get(0))
                    .orElse(Double.POSITIVE_INFINITY);
            List<String> beyond = table.points().stream()
                    .map(TablePoint::reference)
                    .filter(reference -> reference < from || reference > to)
                    .map(SiColumn::print)
                    .toList();
            if (!beyond.isEmpty()) {
                notes.add(
                        CertificateMessage.OUTSIDE_VALIDITY,
                        Rank.NOTE,
                        statement,
                        "The laboratory states a range from " + SiColumn.print(from) + " to " + SiColumn.print(to) + " "
                                + table.referenceUnit() + "; of result " + table.name()
                                + " these reference values lie beyond: " + String.join(", ", beyond)
                                + ". They are used as measured.");
            }
        }
    }

    private static MeasuredKind kind(ResultTable table) {
        return table.kind() == MeasuredKind.RESISTANCE ? MeasuredKind.TEMPERATURE : table.kind();
    }

    private Optional<SiColumn> limit(XmlElement statement, String type) {
        return statement.all().stream()
                .filter(element -> element.name().equals("quantity") && is(element, type))
                .findFirst()
                .flatMap(si::column);
    }

    private void remarks(Optional<XmlElement> core, String version) {
        for (String comment : comments) {
            if (comment.toLowerCase(Locale.ROOT).contains("not a real c")
                    && !comment.strip().startsWith(SIMULATED)) {
                notes.add(
                        CertificateMessage.NOT_REAL,
                        Rank.DOUBT,
                        "A comment in the file says that this is not a real certificate. Was an example taken for it?");
            }
        }
        core.flatMap(found -> found.child("previousReport").or(() -> found.child("reportAmendedSubstituted")))
                .ifPresent(previous -> notes.add(
                        CertificateMessage.EARLIER_REPORT,
                        Rank.NOTE,
                        previous,
                        "The certificate refers to an earlier one ("
                                + previous.all().stream()
                                        .filter(element -> element.children().isEmpty())
                                        .map(element -> DccText.oneLine(element.text()))
                                        .filter(text -> !text.isEmpty())
                                        .findFirst()
                                        .orElse("not named")
                                + "). See that the earlier one is no longer used."));
        root.children("document").forEach(document -> ResultReader.attachment(document, notes));
        Map<String, XmlElement> unknown = new TreeMap<>();
        unknown(root, unknown);
        unknown.forEach((name, first) -> notes.add(
                CertificateMessage.NOT_UNDERSTOOD,
                Rank.NOTE,
                first,
                "Found " + name + ", which is not in the schema 3.x as this program knows it"
                        + (version.isEmpty() ? "" : " (the file states " + version + ")") + ". It is not used."));
    }

    /** Names that are not of the schema, each with its first place; the inside of a strange part is not searched. */
    private static void unknown(XmlElement element, Map<String, XmlElement> unknown) {
        switch (element.namespace()) {
            case NAMESPACE -> {
                if (!KNOWN.contains(element.name())) {
                    unknown.putIfAbsent("<" + DccText.oneLine(element.name()) + ">", element);
                    return;
                }
                if (!Set.of("xml", "mathml", "comment").contains(element.name())) {
                    element.children().forEach(child -> unknown(child, unknown));
                }
            }
            case UNITS_NAMESPACE, SIGNATURES_NAMESPACE -> {
                // values are checked where they are read, signatures by their own check
            }
            default ->
                unknown.putIfAbsent(
                        "<" + DccText.oneLine(element.name()) + "> of "
                                + (element.namespace().isEmpty()
                                        ? "no namespace"
                                        : DccText.oneLine(element.namespace())),
                        element);
        }
    }
}
