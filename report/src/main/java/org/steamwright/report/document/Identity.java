package org.steamwright.report.document;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Locale;
import java.util.Optional;
import java.util.TimeZone;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.steamwright.report.language.Speaker;

/**
 * What a document says about itself: title, dates, conformance, colour profile, identity. Nothing of it comes from the
 * clock of the machine that prints.
 *
 * @param title of the document
 * @param subject what it is about
 * @param date of the visit; the day zero of Unix where none is known
 * @param language of its text, as BCP 47 says it
 * @param number made from the content
 */
record Identity(String title, String subject, Optional<LocalDate> date, String language, long number) {

    private static final String PROGRAM = "Steamwright";

    void apply(PDDocument document) throws IOException {
        Calendar moment = moment();
        PDDocumentInformation information = new PDDocumentInformation();
        information.setTitle(title);
        information.setSubject(subject);
        information.setCreator(PROGRAM);
        information.setProducer(PROGRAM);
        information.setCreationDate(moment);
        information.setModificationDate(moment);
        document.setDocumentInformation(information);
        PDMetadata metadata = new PDMetadata(document);
        metadata.importXMPMetadata(xmp().getBytes(StandardCharsets.UTF_8));
        document.getDocumentCatalog().setMetadata(metadata);
        document.getDocumentCatalog().getCOSObject().setItem(COSName.OUTPUT_INTENTS, outputIntents(document));
        document.setDocumentId(number);
    }

    private LocalDate day() {
        return date.orElse(LocalDate.EPOCH);
    }

    private Calendar moment() {
        Calendar calendar = new GregorianCalendar(TimeZone.getTimeZone(ZoneOffset.UTC), Locale.ROOT);
        calendar.setTimeInMillis(day().atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli());
        return calendar;
    }

    private static COSArray outputIntents(PDDocument document) throws IOException {
        COSStream profile = document.getDocument().createCOSStream();
        profile.setInt(COSName.N, 3);
        try (OutputStream out = profile.createOutputStream(COSName.FLATE_DECODE)) {
            out.write(SrgbProfile.bytes());
        }
        COSDictionary intent = new COSDictionary();
        intent.setItem(COSName.TYPE, COSName.OUTPUT_INTENT);
        intent.setItem(COSName.S, COSName.GTS_PDFA1);
        intent.setString(COSName.OUTPUT_CONDITION_IDENTIFIER, "sRGB IEC61966-2.1");
        intent.setString(COSName.INFO, "sRGB IEC61966-2.1");
        intent.setItem(COSName.DEST_OUTPUT_PROFILE, profile);
        COSArray intents = new COSArray();
        intents.add(intent);
        return intents;
    }

    /** The metadata packet, written out: the same words as in the information dictionary, as PDF/A asks. */
    private String xmp() {
        String stamp = day() + "T00:00:00+00:00";
        return """
                <?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
                <x:xmpmeta xmlns:x="adobe:ns:meta/">
                <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
                <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"
                 xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
                 xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"
                 xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
                 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
                 xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
                <dc:format>application/pdf</dc:format>
                <dc:title><rdf:Alt><rdf:li xml:lang="x-default">%s</rdf:li></rdf:Alt></dc:title>
                <dc:description><rdf:Alt><rdf:li xml:lang="x-default">%s</rdf:li></rdf:Alt></dc:description>
                <dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>
                <xmp:CreatorTool>%s</xmp:CreatorTool>
                <xmp:CreateDate>%s</xmp:CreateDate>
                <xmp:ModifyDate>%s</xmp:ModifyDate>
                <pdf:Producer>%s</pdf:Producer>
                <pdfaid:part>3</pdfaid:part>
                <pdfaid:conformance>A</pdfaid:conformance>
                <pdfuaid:part>1</pdfuaid:part>
                <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
                <pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
                <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
                <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
                <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
                <pdfaProperty:name>part</pdfaProperty:name>
                <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
                <pdfaProperty:category>internal</pdfaProperty:category>
                <pdfaProperty:description>Part of ISO 14289 that the document follows</pdfaProperty:description>
                </rdf:li></rdf:Seq></pdfaSchema:property>
                </rdf:li></rdf:Bag></pdfaExtension:schemas>
                </rdf:Description>
                </rdf:RDF>
                </x:xmpmeta>
                <?xpacket end="w"?>
                """.formatted(escape(title), escape(subject), language, PROGRAM, stamp, stamp, PROGRAM);
    }

    private static String escape(String text) {
        return new Html(Speaker.ENGLISH).text(text).toString();
    }
}
