package org.steamwright.intake.certificate;

import java.io.ByteArrayInputStream;
import java.security.GeneralSecurityException;
import java.security.Key;
import java.security.KeyException;
import java.security.MessageDigest;
import java.security.cert.CertPathBuilder;
import java.security.cert.CertPathBuilderException;
import java.security.cert.CertStore;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateFactory;
import java.security.cert.CertificateNotYetValidException;
import java.security.cert.CollectionCertStoreParameters;
import java.security.cert.PKIXBuilderParameters;
import java.security.cert.PKIXCertPathBuilderResult;
import java.security.cert.TrustAnchor;
import java.security.cert.X509CertSelector;
import java.security.cert.X509Certificate;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Date;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javax.security.auth.x500.X500Principal;
import javax.xml.crypto.KeySelector;
import javax.xml.crypto.MarshalException;
import javax.xml.crypto.URIDereferencer;
import javax.xml.crypto.URIReferenceException;
import javax.xml.crypto.dom.DOMStructure;
import javax.xml.crypto.dsig.Reference;
import javax.xml.crypto.dsig.Transform;
import javax.xml.crypto.dsig.XMLSignature;
import javax.xml.crypto.dsig.XMLSignatureException;
import javax.xml.crypto.dsig.XMLSignatureFactory;
import javax.xml.crypto.dsig.dom.DOMValidateContext;
import javax.xml.crypto.dsig.keyinfo.KeyInfoFactory;
import javax.xml.crypto.dsig.keyinfo.KeyValue;
import javax.xml.stream.XMLStreamException;
import org.jspecify.annotations.Nullable;
import org.steamwright.assessment.calibration.CertificateFile.Signature;
import org.steamwright.intake.xml.SafeXml;
import org.steamwright.intake.xml.XmlElement;
import org.steamwright.intake.xml.XmlLimits;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;

/**
 * Checks the enveloped signature of a certificate with the means of the Java runtime.
 *
 * <p>Good is a signature over the whole document, by a key whose certificate leads to a trusted one and was in date when it
 * was signed, as the signature itself claims. Nothing is fetched: no revocation list is asked, no time stamp of a third party
 * is checked. What the signature refers to outside the document makes it unchecked.
 *
 * @source W3C, XML Signature Syntax and Processing 1.1; ETSI EN 319 132-1 (XAdES) for the claimed time and the digest of the
 *     signer's certificate, text not seen, elements as in the examples
 */
final class SignatureCheck {

    private static final String SIGNATURES = XMLSignature.XMLNS;
    private static final Set<String> WHOLE_DOCUMENT_TRANSFORMS = Set.of(
            Transform.ENVELOPED,
            "http://www.w3.org/TR/2001/REC-xml-c14n-20010315",
            "http://www.w3.org/TR/2001/REC-xml-c14n-20010315#WithComments",
            "http://www.w3.org/2006/12/xml-c14n11",
            "http://www.w3.org/2006/12/xml-c14n11#WithComments",
            "http://www.w3.org/2001/10/xml-exc-c14n#",
            "http://www.w3.org/2001/10/xml-exc-c14n#WithComments");

    /** A file with more is no signed certificate. */
    private static final int MOST_SIGNATURES = 10;

    private final TrustAnchors trust;

    SignatureCheck(TrustAnchors trust) {
        this.trust = trust;
    }

    /** The answer for a document; of several signatures the worst counts. */
    CertificateSignature check(byte[] xml, XmlElement root) {
        boolean isSigned = root.all().stream()
                .anyMatch(element -> element.name().equals("Signature")
                        && element.namespace().equals(SIGNATURES));
        if (!isSigned) {
            return CertificateSignature.NONE;
        }
        Document document;
        try {
            document = SafeXml.document(xml, XmlLimits.DOCUMENT);
        } catch (XMLStreamException e) {
            return notChecked("", Optional.empty(), "the document could not be opened for it");
        }
        NodeList found = document.getElementsByTagNameNS(SIGNATURES, "Signature");
        if (found.getLength() > MOST_SIGNATURES) {
            return notChecked("", Optional.empty(), "the file holds " + found.getLength() + " signatures");
        }
        Optional<CertificateSignature> worst = Optional.empty();
        for (int i = 0; i < found.getLength(); i++) {
            CertificateSignature answer = one(document, (Element) found.item(i));
            if (worst.isEmpty() || severity(answer) > severity(worst.get())) {
                worst = Optional.of(answer);
            }
        }
        return worst.orElse(CertificateSignature.NONE);
    }

    private static int severity(CertificateSignature answer) {
        return switch (answer.answer()) {
            case GOOD -> 0;
            case UNKNOWN_SIGNER -> 1;
            case NOT_SIGNED, NOT_CHECKED -> 2;
            case BAD -> 3;
        };
    }

    private CertificateSignature one(Document document, Element element) {
        Optional<Instant> claimed = claimedTime(element);
        List<X509Certificate> stated = stated(element);
        Optional<X509Certificate> signer = signer(element, stated);
        String name =
                signer.map(one -> commonName(one.getSubjectX500Principal())).orElse("");
        Optional<Key> key = signer.map(one -> (Key) one.getPublicKey()).or(() -> bareKey(element));
        if (key.isEmpty()) {
            return notChecked(name, claimed, "it names no key that could be read");
        }
        try {
            XMLSignatureFactory factory = XMLSignatureFactory.getInstance("DOM");
            DOMValidateContext context = new DOMValidateContext(KeySelector.singletonKeySelector(key.get()), element);
            context.setProperty("org.jcp.xml.dsig.secureValidation", true);
            context.setURIDereferencer(insideOnly(factory.getURIDereferencer()));
            markIds(element, context);
            XMLSignature signature = factory.unmarshalXMLSignature(context);
            if (!signature.validate(context)) {
                return bad(name, claimed, whatChanged(signature, context));
            }
            if (!coversAll(signature) || element.getParentNode() != document.getDocumentElement()) {
                return bad(name, claimed, "it covers a part of the file only; the rest may be anybody's");
            }
        } catch (MarshalException | XMLSignatureException e) {
            return notChecked(name, claimed, reason(e));
        }
        if (signer.isEmpty()) {
            return unknown(name, claimed, "The key stands in the file without a certificate of its owner.");
        }
        if (!isClaimedSigner(element, signer.get())) {
            return bad(name, claimed, "the certificate beside it is not the one that it was signed with");
        }
        return judged(signer.get(), name, claimed, stated);
    }

    private static String reason(Exception e) {
        Throwable deepest = e;
        while (deepest.getCause() != null && deepest.getCause() != deepest) {
            deepest = deepest.getCause();
        }
        return DccText.oneLine(String.valueOf(deepest.getMessage()));
    }

    private CertificateSignature judged(
            X509Certificate signer, String name, Optional<Instant> claimed, List<X509Certificate> stated) {
        Instant at = claimed.orElse(signer.getNotBefore().toInstant());
        String dates = "Its certificate runs from " + day(signer.getNotBefore()) + " to " + day(signer.getNotAfter())
                + claimed.map(time -> ", signed on "
                                + time.atOffset(ZoneOffset.UTC).toLocalDate() + " as the signature itself claims")
                        .orElse("; when it was signed is not stated")
                + ". Whether it was withdrawn is not asked.";
        try {
            signer.checkValidity(Date.from(at));
        } catch (CertificateExpiredException | CertificateNotYetValidException e) {
            return unknown(name, claimed, "The signer's certificate was not in date when it was signed. " + dates);
        }
        boolean[] usage = signer.getKeyUsage();
        if (usage != null && !usage[0] && !usage[1]) {
            return unknown(name, claimed, "The signer's certificate is not made for signing. " + dates);
        }
        if (trust.isEmpty()) {
            return unknown(name, claimed, "No folder of trusted certificates was given. " + dates);
        }
        Optional<String> anchor = anchor(signer, at, stated);
        if (anchor.isEmpty()) {
            return unknown(name, claimed, "The signer's certificate leads to none of the trusted ones. " + dates);
        }
        return new CertificateSignature(
                Signature.GOOD,
                name,
                claimed,
                "The file is as " + name + " signed it; trusted through " + anchor.get() + ". " + dates);
    }

    /** The trusted certificate to which the signer's leads. */
    private Optional<String> anchor(X509Certificate signer, Instant at, List<X509Certificate> stated) {
        if (trust.certificates().contains(signer)) {
            return Optional.of("its own certificate");
        }
        Set<TrustAnchor> anchors = new HashSet<>();
        for (X509Certificate certificate : trust.certificates()) {
            if (certificate.getBasicConstraints() >= 0
                    && !at.isBefore(certificate.getNotBefore().toInstant())
                    && !at.isAfter(certificate.getNotAfter().toInstant())) {
                anchors.add(new TrustAnchor(certificate, null));
            }
        }
        if (anchors.isEmpty()) {
            return Optional.empty();
        }
        try {
            X509CertSelector target = new X509CertSelector();
            target.setCertificate(signer);
            PKIXBuilderParameters parameters = new PKIXBuilderParameters(anchors, target);
            parameters.setRevocationEnabled(false);
            parameters.setDate(Date.from(at));
            List<X509Certificate> known = new ArrayList<>(stated);
            known.add(signer);
            parameters.addCertStore(CertStore.getInstance("Collection", new CollectionCertStoreParameters(known)));
            PKIXCertPathBuilderResult path = (PKIXCertPathBuilderResult)
                    CertPathBuilder.getInstance("PKIX").build(parameters);
            return Optional.of(commonName(path.getTrustAnchor().getTrustedCert().getSubjectX500Principal()));
        } catch (CertPathBuilderException noWay) {
            return Optional.empty();
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime can't build a path of certificates", e);
        }
    }

    /** Certificates that stand in the signature; those that can't be read are left out, a key is then missing. */
    private static List<X509Certificate> stated(Element signature) {
        List<X509Certificate> certificates = new ArrayList<>();
        NodeList found = signature.getElementsByTagNameNS(SIGNATURES, "X509Certificate");
        for (int i = 0; i < Math.min(found.getLength(), MOST_SIGNATURES); i++) {
            certificate(found.item(i).getTextContent()).ifPresent(certificates::add);
        }
        return certificates;
    }

    private static Optional<X509Certificate> certificate(String base64) {
        try {
            byte[] der = Base64.getMimeDecoder().decode(base64);
            return Optional.of((X509Certificate)
                    CertificateFactory.getInstance("X.509").generateCertificate(new ByteArrayInputStream(der)));
        } catch (CertificateException | IllegalArgumentException unreadable) {
            return Optional.empty();
        }
    }

    /** The signer's own certificate among those stated: the one the signature names, or the one that vouches for no other. */
    private static Optional<X509Certificate> signer(Element signature, List<X509Certificate> stated) {
        return stated.stream()
                .filter(one -> !digests(signature).isEmpty() && isClaimedSigner(signature, one))
                .findFirst()
                .or(() -> stated.stream()
                        .filter(one -> one.getBasicConstraints() < 0)
                        .findFirst())
                .or(() -> stated.stream().findFirst());
    }

    private static Optional<Key> bareKey(Element signature) {
        NodeList values = signature.getElementsByTagNameNS(SIGNATURES, "KeyValue");
        if (values.getLength() == 0) {
            return Optional.empty();
        }
        try {
            return KeyInfoFactory.getInstance("DOM")
                    .unmarshalKeyInfo(new DOMStructure(values.item(0).getParentNode()))
                    .getContent()
                    .stream()
                    .filter(KeyValue.class::isInstance)
                    .map(KeyValue.class::cast)
                    .findFirst()
                    .map(SignatureCheck::publicKey);
        } catch (MarshalException unreadable) {
            return Optional.empty();
        }
    }

    private static @Nullable Key publicKey(KeyValue value) {
        try {
            return value.getPublicKey();
        } catch (KeyException unreadable) {
            return null;
        }
    }

    /** Digests of the signer's certificate that the signature carries: algorithm and value. */
    private static List<Element> digests(Element signature) {
        List<Element> digests = new ArrayList<>();
        NodeList found = signature.getElementsByTagNameNS("*", "CertDigest");
        for (int i = 0; i < found.getLength(); i++) {
            digests.add((Element) found.item(i));
        }
        return digests;
    }

    private static boolean isClaimedSigner(Element signature, X509Certificate certificate) {
        List<Element> digests = digests(signature);
        return digests.isEmpty() || digests.stream().anyMatch(digest -> isDigestOf(digest, certificate));
    }

    private static boolean isDigestOf(Element digest, X509Certificate certificate) {
        Optional<Element> method = inside(digest, "DigestMethod");
        Optional<Element> value = inside(digest, "DigestValue");
        if (method.isEmpty() || value.isEmpty()) {
            return false;
        }
        String uri = method.get().getAttribute("Algorithm");
        String algorithm = switch (uri.substring(Math.max(uri.lastIndexOf('#'), uri.lastIndexOf('/')) + 1)) {
            case "sha1" -> "SHA-1";
            case "sha224" -> "SHA-224";
            case "sha256" -> "SHA-256";
            case "sha384" -> "SHA-384";
            case "sha512" -> "SHA-512";
            default -> "";
        };
        if (algorithm.isEmpty()) {
            return false;
        }
        try {
            byte[] own = MessageDigest.getInstance(algorithm).digest(certificate.getEncoded());
            byte[] stated = Base64.getMimeDecoder().decode(value.get().getTextContent());
            return MessageDigest.isEqual(own, stated);
        } catch (GeneralSecurityException | IllegalArgumentException unreadable) {
            return false;
        }
    }

    private static Optional<Element> inside(Element element, String name) {
        NodeList found = element.getElementsByTagNameNS("*", name);
        return found.getLength() == 0 ? Optional.empty() : Optional.of((Element) found.item(0));
    }

    private static Optional<Instant> claimedTime(Element signature) {
        return inside(signature, "SigningTime").map(Node::getTextContent).flatMap(text -> {
            try {
                return Optional.of(OffsetDateTime.parse(text.strip()).toInstant());
            } catch (DateTimeException unreadable) {
                return Optional.empty();
            }
        });
    }

    /** Ids inside the signature may be referred to by it; nothing else of the document may. */
    private static void markIds(Element element, DOMValidateContext context) {
        if (element.hasAttribute("Id")) {
            context.setIdAttributeNS(element, null, "Id");
        }
        for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child instanceof Element inner) {
                markIds(inner, context);
            }
        }
    }

    private static URIDereferencer insideOnly(URIDereferencer usual) {
        return (reference, context) -> {
            String uri = reference.getURI();
            if (uri == null || !(uri.isEmpty() || uri.startsWith("#"))) {
                throw new URIReferenceException("it refers to something outside the file");
            }
            return usual.dereference(reference, context);
        };
    }

    private static boolean coversAll(XMLSignature signature) {
        List<Reference> references = signature.getSignedInfo().getReferences();
        for (Reference reference : references) {
            Set<String> transforms = new HashSet<>();
            for (Transform transform : reference.getTransforms()) {
                transforms.add(transform.getAlgorithm());
            }
            if ("".equals(reference.getURI())
                    && transforms.contains(Transform.ENVELOPED)
                    && WHOLE_DOCUMENT_TRANSFORMS.containsAll(transforms)) {
                return true;
            }
        }
        return false;
    }

    private static String whatChanged(XMLSignature signature, DOMValidateContext context) {
        try {
            if (!signature.getSignatureValue().validate(context)) {
                return "its value does not fit the signer's key";
            }
            for (Reference reference : signature.getSignedInfo().getReferences()) {
                if (!reference.validate(context)) {
                    return "".equals(reference.getURI())
                            ? "the content was changed after it was signed"
                            : "the particulars of the signature were changed after it was signed";
                }
            }
        } catch (XMLSignatureException e) {
            return reason(e);
        }
        return "the content does not fit it";
    }

    private static CertificateSignature bad(String name, Optional<Instant> claimed, String why) {
        return new CertificateSignature(
                Signature.BAD,
                name,
                claimed,
                "The signature" + by(name) + " is bad: " + why
                        + ". The certificate must not be used. Ask the laboratory for the original file.");
    }

    private static CertificateSignature unknown(String name, Optional<Instant> claimed, String why) {
        return new CertificateSignature(
                Signature.UNKNOWN_SIGNER,
                name,
                claimed,
                "The file is unchanged since it was signed" + by(name) + ", but who that is was not established. "
                        + why);
    }

    private static CertificateSignature notChecked(String name, Optional<Instant> claimed, String why) {
        return new CertificateSignature(
                Signature.NOT_CHECKED,
                name,
                claimed,
                "The file is signed" + by(name) + ", but the signature could not be checked: " + why
                        + ". Nothing shows that the file is still as the laboratory wrote it.");
    }

    private static String by(String name) {
        return name.isEmpty() ? "" : " by " + name;
    }

    private static String day(Date date) {
        return date.toInstant().atOffset(ZoneOffset.UTC).toLocalDate().toString();
    }

    private static String commonName(X500Principal principal) {
        String name = principal.getName(X500Principal.RFC2253);
        String common = List.of(name.split("(?<!\\\\),")).stream()
                .filter(part -> part.startsWith("CN="))
                .map(part -> part.substring("CN=".length()))
                .collect(Collectors.joining(", "));
        return DccText.oneLine(common.isEmpty() ? name : common);
    }
}
