package org.steamwright.intake.certificate;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.MessageDigest;
import java.security.PrivateKey;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import javax.xml.crypto.dom.DOMStructure;
import javax.xml.crypto.dsig.DigestMethod;
import javax.xml.crypto.dsig.Reference;
import javax.xml.crypto.dsig.SignedInfo;
import javax.xml.crypto.dsig.Transform;
import javax.xml.crypto.dsig.XMLObject;
import javax.xml.crypto.dsig.XMLSignatureFactory;
import javax.xml.crypto.dsig.dom.DOMSignContext;
import javax.xml.crypto.dsig.keyinfo.KeyInfo;
import javax.xml.crypto.dsig.keyinfo.KeyInfoFactory;
import javax.xml.crypto.dsig.spec.C14NMethodParameterSpec;
import javax.xml.crypto.dsig.spec.TransformParameterSpec;
import javax.xml.transform.TransformerFactory;
import javax.xml.transform.dom.DOMSource;
import javax.xml.transform.stream.StreamResult;
import org.steamwright.intake.xml.SafeXml;
import org.steamwright.intake.xml.XmlLimits;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/**
 * Signs invented certificates with the keys of invented people.
 *
 * <p>The keys were made once with the keytool of the Java runtime: 'root' vouches for 'lab' (certificate in date from
 * 2025-01-01 to 2027-12-31, for signing only), 'stranger' vouches for himself. They open nothing.
 */
public final class InventedSigners {

    private static final char[] PASSWORD = "invented".toCharArray();
    private static final String EXCLUSIVE = "http://www.w3.org/2001/10/xml-exc-c14n#";
    private static final String ECDSA = "http://www.w3.org/2001/04/xmldsig-more#ecdsa-sha256";
    private static final String XADES = "http://uri.etsi.org/01903/v1.3.2#";

    private InventedSigners() {}

    private static KeyStore keys() throws GeneralSecurityException, IOException {
        try (InputStream in = InventedSigners.class.getResourceAsStream("/certificates/invented-signers.txt")) {
            byte[] bytes = Base64.getMimeDecoder().decode(new String(in.readAllBytes(), StandardCharsets.US_ASCII));
            KeyStore keys = KeyStore.getInstance("PKCS12");
            keys.load(new ByteArrayInputStream(bytes), PASSWORD);
            return keys;
        }
    }

    /** The certificate of one of them. */
    public static X509Certificate certificate(String name) throws GeneralSecurityException, IOException {
        return (X509Certificate) keys().getCertificate(name);
    }

    /** A folder that trusts those people. */
    static TrustAnchors trusting(Path folder, String... names) throws Exception {
        Files.createDirectories(folder);
        for (String name : names) {
            Files.write(folder.resolve(name + ".crt"), certificate(name).getEncoded());
        }
        return TrustAnchors.of(folder);
    }

    /** A signature over the whole document, as laboratories make it. */
    public static byte[] sign(byte[] xml, String name, String signedAt) throws Exception {
        return sign(xml, name, certificate(name), signedAt, "");
    }

    /**
     * @param shown certificate that is put into the signature
     * @param uri what is signed: empty for the whole document
     */
    static byte[] sign(byte[] xml, String name, X509Certificate shown, String signedAt, String uri) throws Exception {
        Document document = SafeXml.document(xml, XmlLimits.DOCUMENT);
        XMLSignatureFactory factory = XMLSignatureFactory.getInstance("DOM");
        List<Reference> references = new ArrayList<>();
        DigestMethod sha256 = factory.newDigestMethod(DigestMethod.SHA256, null);
        references.add(factory.newReference(
                uri,
                sha256,
                List.of(
                        factory.newTransform(Transform.ENVELOPED, (TransformParameterSpec) null),
                        factory.newTransform(EXCLUSIVE, (TransformParameterSpec) null)),
                null,
                null));
        List<XMLObject> objects = new ArrayList<>();
        DOMSignContext context =
                new DOMSignContext((PrivateKey) keys().getKey(name, PASSWORD), document.getDocumentElement());
        context.setDefaultNamespacePrefix("ds");
        if (!uri.isEmpty()) {
            Element part = (Element) document.getElementsByTagNameNS("https://ptb.de/dcc", "item")
                    .item(0);
            part.setAttribute("id", uri.substring(1));
            context.setIdAttributeNS(part, null, "id");
        }
        if (!signedAt.isEmpty()) {
            Element properties = properties(document, signedAt, certificate(name));
            context.setIdAttributeNS((Element) properties.getFirstChild(), null, "Id");
            objects.add(factory.newXMLObject(List.of(new DOMStructure(properties)), null, null, null));
            references.add(factory.newReference(
                    "#properties",
                    sha256,
                    List.of(factory.newTransform(EXCLUSIVE, (TransformParameterSpec) null)),
                    "http://uri.etsi.org/01903#SignedProperties",
                    null));
        }
        SignedInfo info = factory.newSignedInfo(
                factory.newCanonicalizationMethod(EXCLUSIVE, (C14NMethodParameterSpec) null),
                factory.newSignatureMethod(ECDSA, null),
                references);
        KeyInfoFactory keyInfos = factory.getKeyInfoFactory();
        KeyInfo keyInfo = keyInfos.newKeyInfo(List.of(keyInfos.newX509Data(List.of(shown))));
        factory.newXMLSignature(info, keyInfo, objects, null, null).sign(context);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        TransformerFactory.newInstance().newTransformer().transform(new DOMSource(document), new StreamResult(out));
        return out.toByteArray();
    }

    private static Element properties(Document document, String signedAt, X509Certificate signer)
            throws GeneralSecurityException {
        Element qualifying = document.createElementNS(XADES, "xades:QualifyingProperties");
        Element signed = append(qualifying, XADES, "xades:SignedProperties");
        signed.setAttribute("Id", "properties");
        append(signed, XADES, "xades:SigningTime").setTextContent(signedAt);
        Element digest = append(signed, XADES, "xades:CertDigest");
        append(digest, "http://www.w3.org/2000/09/xmldsig#", "ds:DigestMethod")
                .setAttribute("Algorithm", DigestMethod.SHA256);
        append(digest, "http://www.w3.org/2000/09/xmldsig#", "ds:DigestValue")
                .setTextContent(Base64.getEncoder()
                        .encodeToString(MessageDigest.getInstance("SHA-256").digest(signer.getEncoded())));
        return qualifying;
    }

    private static Element append(Element parent, String namespace, String name) {
        Element child = parent.getOwnerDocument().createElementNS(namespace, name);
        parent.appendChild(child);
        return child;
    }
}
