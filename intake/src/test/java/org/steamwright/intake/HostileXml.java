package org.steamwright.intake;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Ways by which an XML document tries to make its reader open a file, a connection or endless memory. Made from what the
 * XML recommendation offers (entities, document types, notations) times the kinds of addresses; every door through which
 * XML comes in is tried with each.
 *
 * @source Extensible Markup Language 1.0, fifth edition, sections 2.8, 3.3, 4.1 to 4.7
 */
public final class HostileXml {

    /**
     * A payload.
     *
     * @param name what it tries
     * @param prologue what stands before the root element
     * @param inside what is put right behind the first start tag
     * @param attributes what is put into the first start tag
     * @param charset in which the document is written
     */
    public record Payload(String name, String prologue, String inside, String attributes, Charset charset) {

        /** Whether it declares a document type: such documents have to be refused. */
        public boolean hasDocumentType() {
            return prologue.contains("<!DOCTYPE");
        }

        /** An honest document with the payload built in. */
        public byte[] in(String document) {
            String root = document.replaceFirst("^\\s*<\\?xml[^>]*\\?>", "");
            int end = root.indexOf('>');
            boolean isEmpty = root.charAt(end - 1) == '/';
            int nameEnd = isEmpty ? end - 1 : end;
            String tag = root.substring(1, nameEnd).split("[\\s/]", 2)[0];
            String text = prologue
                    + root.substring(0, nameEnd)
                    + (attributes.isEmpty() ? "" : " " + attributes)
                    + ">"
                    + inside
                    + (isEmpty ? "</" + tag + ">" : "")
                    + root.substring(end + 1);
            return text.getBytes(charset);
        }
    }

    private final List<Payload> payloads = new ArrayList<>();

    private HostileXml() {}

    /**
     * At least a hundred payloads.
     *
     * @param connection address of a server that must not be asked
     * @param secret address of a file that must not be read
     */
    public static List<Payload> all(String connection, String secret) {
        HostileXml all = new HostileXml();
        String path = secret.substring("file:".length()).replaceFirst("^/*", "/");
        String host = connection.replaceFirst("^http://", "");
        List<String> addresses = List.of(
                secret,
                "file://localhost" + path,
                path,
                connection,
                connection + "/a.dtd",
                "HTTP://" + host,
                "ftp://" + host,
                "jar:" + connection + "/a.jar!/b",
                "jar:" + secret + "!/b",
                "//" + host);
        for (String address : addresses) {
            all.addresses(address);
        }
        all.growing();
        all.encoded(secret, connection);
        all.withoutDocumentType(connection, secret);
        return List.copyOf(all.payloads);
    }

    private void add(String name, String prologue, String inside, String attributes) {
        payloads.add(new Payload(name, prologue, inside, attributes, StandardCharsets.UTF_8));
    }

    private void addresses(String at) {
        add("entity " + at, "<!DOCTYPE a [<!ENTITY e SYSTEM \"" + at + "\">]>", "&e;", "");
        add("entity in attribute " + at, "<!DOCTYPE a [<!ENTITY e SYSTEM \"" + at + "\">]>", "", "x=\"&e;\"");
        add("public entity " + at, "<!DOCTYPE a [<!ENTITY e PUBLIC \"p\" \"" + at + "\">]>", "&e;", "");
        add("external type " + at, "<!DOCTYPE a SYSTEM \"" + at + "\">", "", "");
        add("public type " + at, "<!DOCTYPE a PUBLIC \"-//p\" \"" + at + "\">", "", "");
        add("parameter entity " + at, "<!DOCTYPE a [<!ENTITY % p SYSTEM \"" + at + "\"> %p;]>", "", "");
        add(
                "entity by parameter " + at,
                "<!DOCTYPE a [<!ENTITY % f SYSTEM \"" + at + "\"><!ENTITY % p \"<!ENTITY e SYSTEM '" + at
                        + "'>\"> %p; %f;]>",
                "&e;",
                "");
        add(
                "notation " + at,
                "<!DOCTYPE a [<!NOTATION n SYSTEM \"" + at + "\"><!ENTITY e SYSTEM \"" + at + "\" NDATA n>"
                        + "<!ATTLIST a x ENTITY \"e\">]>",
                "",
                "");
        add("default attribute " + at, "<!DOCTYPE a [<!ATTLIST a href CDATA \"" + at + "\">]>", "", "");
        add("unused entity " + at, "<!DOCTYPE a [<!ENTITY e SYSTEM \"" + at + "\">]>", "", "");
    }

    private void growing() {
        StringBuilder laughs = new StringBuilder("<!DOCTYPE a [<!ENTITY e0 \"ha\">");
        for (int i = 1; i <= 30; i++) {
            laughs.append("<!ENTITY e%d \"".formatted(i))
                    .append(("&e" + (i - 1) + ";").repeat(10))
                    .append("\">");
        }
        add("entities that multiply", laughs + "]>", "&e30;", "");
        add(
                "long entity used often",
                "<!DOCTYPE a [<!ENTITY e \"" + "h".repeat(50_000) + "\">]>",
                "&e;".repeat(5_000),
                "");
        add("entities in a circle", "<!DOCTYPE a [<!ENTITY e \"&f;\"><!ENTITY f \"&e;\">]>", "&e;", "");
        add(
                "parameter entities that multiply",
                "<!DOCTYPE a [<!ENTITY % p \"q\"><!ENTITY % r \"%p;%p;\">%r;]>",
                "",
                "");
        add(
                "content model",
                "<!DOCTYPE a [<!ELEMENT a (" + "(b,".repeat(5_000) + "c" + ")".repeat(5_000) + ")>]>",
                "",
                "");
        add("endless type", "<!DOCTYPE a [" + "<!ENTITY e \"x\">".repeat(20_000) + "]>", "", "");
        add("empty type", "<!DOCTYPE a>", "", "");
        add("lower case address", "<!DOCTYPE a [<!ENTITY e SYSTEM 'file:///dev/random'>]>", "&e;", "");
        add("device", "<!DOCTYPE a [<!ENTITY e SYSTEM \"file:///dev/zero\">]>", "&e;", "");
        add(
                "behind a comment",
                "<!-- a --><?p q?><!DOCTYPE a [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>",
                "&e;",
                "");
        add(
                "standalone",
                "<?xml version=\"1.0\" standalone=\"yes\"?><!DOCTYPE a [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>",
                "&e;",
                "");
        add(
                "version 1.1",
                "<?xml version=\"1.1\"?><!DOCTYPE a [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>",
                "&e;",
                "");
    }

    private void encoded(String secret, String connection) {
        for (String charset : List.of("UTF-16", "UTF-16BE", "UTF-16LE", "ISO-8859-1", "windows-1252", "US-ASCII")) {
            for (String at : List.of(secret, connection)) {
                String mark = charset.equals("UTF-16BE") || charset.equals("UTF-16LE") ? "\uFEFF" : "";
                payloads.add(new Payload(
                        "in " + charset + " " + at,
                        mark + "<?xml version=\"1.0\" encoding=\"" + charset + "\"?><!DOCTYPE a [<!ENTITY e SYSTEM \""
                                + at + "\">]>",
                        "&e;",
                        "",
                        Charset.forName(charset)));
            }
        }
    }

    private void withoutDocumentType(String connection, String secret) {
        for (String at : List.of(connection, secret)) {
            String schema = "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" ";
            add("schema location " + at, "", "", schema + "xsi:schemaLocation=\"urn:a " + at + "\"");
            add("schema without name space " + at, "", "", schema + "xsi:noNamespaceSchemaLocation=\"" + at + "\"");
            add(
                    "inclusion " + at,
                    "",
                    "<xi:include xmlns:xi=\"http://www.w3.org/2001/XInclude\" parse=\"text\" href=\"" + at + "\"/>",
                    "");
            add("style sheet " + at, "<?xml-stylesheet type=\"text/xsl\" href=\"" + at + "\"?>", "", "");
            add("name space " + at, "", "", "xmlns:q=\"" + at + "\"");
            add("base " + at, "", "", "xml:base=\"" + at + "\"");
            add("link " + at, "", "", "xmlns:xl=\"http://www.w3.org/1999/xlink\" xl:href=\"" + at + "\"");
        }
        add("undeclared entity", "", "&e;", "");
        add("undeclared entity in attribute", "", "", "x=\"&e;\"");
    }
}
