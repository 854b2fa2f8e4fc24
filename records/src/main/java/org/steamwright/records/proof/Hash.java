package org.steamwright.records.proof;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * 32 bytes of SHA-256.
 *
 * @source RFC 9162, section 2.1.1: hashes of leaves and nodes, told apart by their first byte
 */
public final class Hash implements Comparable<Hash> {

    private static final byte LEAF = 0;
    private static final byte NODE = 1;
    private static final int LENGTH = 32;
    private static final int CHUNK = 1 << 16;

    private final byte[] bytes;

    private Hash(byte[] bytes) {
        if (bytes.length != LENGTH) {
            throw new IllegalArgumentException("a hash has " + LENGTH + " bytes, not " + bytes.length);
        }
        this.bytes = bytes;
    }

    /** Hash kept as bytes. */
    public static Hash ofBytes(byte[] bytes) {
        return new Hash(bytes.clone());
    }

    /** Hash written as 64 hexadecimal digits. */
    public static Hash ofHex(String hex) {
        return new Hash(HexFormat.of().parseHex(hex));
    }

    /** SHA-256 of the content itself, as files are named by it. */
    public static Hash ofContent(byte[] content) {
        return new Hash(sha256().digest(content));
    }

    /** SHA-256 of a stream to its end, whatever its length; the caller closes it. */
    public static Hash ofContent(InputStream in) throws IOException {
        MessageDigest digest = sha256();
        byte[] chunk = new byte[CHUNK];
        for (int read = in.read(chunk); read >= 0; read = in.read(chunk)) {
            digest.update(chunk, 0, read);
        }
        return new Hash(digest.digest());
    }

    /** Hash of one entry: SHA-256 of a zero byte and the entry. */
    public static Hash ofLeaf(byte[] entry) {
        MessageDigest digest = sha256();
        digest.update(LEAF);
        return new Hash(digest.digest(entry));
    }

    /** Hash of two neighbouring subtrees: SHA-256 of a one byte and both. */
    public static Hash ofNode(Hash left, Hash right) {
        MessageDigest digest = sha256();
        digest.update(NODE);
        digest.update(left.bytes);
        return new Hash(digest.digest(right.bytes));
    }

    /** Root of a journal without entries: SHA-256 of nothing. */
    public static Hash ofNothing() {
        return new Hash(sha256().digest());
    }

    /** A fresh SHA-256. */
    public static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** A copy of the bytes. */
    public byte[] toBytes() {
        return bytes.clone();
    }

    /** 64 lower-case hexadecimal digits. */
    public String hex() {
        return HexFormat.of().formatHex(bytes);
    }

    @Override
    public int compareTo(Hash other) {
        return Arrays.compareUnsigned(bytes, other.bytes);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Hash hash && Arrays.equals(bytes, hash.bytes);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(bytes);
    }

    @Override
    public String toString() {
        return hex();
    }
}
