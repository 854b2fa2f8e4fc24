package org.steamwright.records.signing;

import com.fasterxml.jackson.databind.JsonNode;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PublicKey;
import java.security.Signature;
import java.security.SignatureException;
import java.security.spec.X509EncodedKeySpec;
import java.time.Instant;
import java.util.Base64;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;

/**
 * A public key of a person, as it stands in the journal for ever.
 *
 * @param id first 16 digits of the SHA-256 of the key
 * @param encoded the key, base 64 of its X.509 form
 * @param from first moment in which it may sign, included
 * @param until first moment in which it may no more; empty while it is in use
 */
public record PublicKeyRecord(String id, String encoded, Instant from, Optional<Instant> until) {

    static final String ALGORITHM = "Ed25519";
    private static final String PREFIX = "keys/";
    private static final int ID_BYTES = 8;

    static PublicKeyRecord of(PublicKey key, Instant from) {
        byte[] encoded = key.getEncoded();
        byte[] digest = Hash.ofContent(encoded).toBytes();
        return new PublicKeyRecord(
                HexFormat.of().formatHex(digest, 0, ID_BYTES),
                Base64.getEncoder().encodeToString(encoded),
                from,
                Optional.empty());
    }

    static boolean isKey(String property) {
        return property.startsWith(PREFIX);
    }

    /** Name of the fact under which the key stands. */
    public String property() {
        return PREFIX + id;
    }

    JsonText toJson() {
        Map<String, Object> members = new LinkedHashMap<>();
        members.put("algorithm", ALGORITHM);
        members.put("publicKey", encoded);
        members.put("from", from.toString());
        until.ifPresent(end -> members.put("until", end.toString()));
        return JsonText.of(members);
    }

    static PublicKeyRecord read(String property, JsonText value) {
        JsonNode node = value.node();
        return new PublicKeyRecord(
                property.substring(PREFIX.length()),
                node.path("publicKey").asText(),
                Instant.parse(node.path("from").asText()),
                node.has("until") ? Optional.of(Instant.parse(node.path("until").asText())) : Optional.empty());
    }

    PublicKeyRecord endedAt(Instant end) {
        return new PublicKeyRecord(id, encoded, from, Optional.of(end));
    }

    /** Whether it might sign at that moment. */
    public boolean isInUse(Instant at) {
        return !at.isBefore(from) && until.map(at::isBefore).orElse(true);
    }

    /** Whether the signature is this key's over the content. */
    public boolean verifies(byte[] content, byte[] signature) {
        try {
            PublicKey key = KeyFactory.getInstance(ALGORITHM)
                    .generatePublic(new X509EncodedKeySpec(Base64.getDecoder().decode(encoded)));
            Signature verifier = Signature.getInstance(ALGORITHM);
            verifier.initVerify(key);
            verifier.update(content);
            return verifier.verify(signature);
        } catch (SignatureException | IllegalArgumentException e) {
            // a signature or a key of another form is not this key's signature
            return false;
        } catch (GeneralSecurityException e) {
            return false;
        }
    }
}
