package org.steamwright.intake.spreadsheet;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/** Writes zip archives byte by byte, honest ones and ones whose headers say what they should not. */
final class HandZip {

    /** A part with everything that its two headers say. */
    static final class Part {
        byte[] name;
        byte[] ownName;
        byte[] data;
        int method;
        int flags;
        int ownFlags = -1;
        long crc;
        long packed;
        long unpacked;
        long ownPacked = -1;
        long ownUnpacked = -1;
        byte[] extra = {};
        byte[] behind = {};
        long header = -1;
        boolean isListedOnly;

        private Part(String name, byte[] content, byte[] data, int method) {
            this.name = name.getBytes(StandardCharsets.UTF_8);
            this.ownName = this.name;
            this.data = data;
            this.method = method;
            CRC32 sum = new CRC32();
            sum.update(content);
            this.crc = sum.getValue();
            this.packed = data.length;
            this.unpacked = content.length;
        }

        /** Another name in both headers, byte by byte. */
        Part named(byte[] both) {
            name = both;
            ownName = both;
            return this;
        }
    }

    final List<Part> parts = new ArrayList<>();
    byte[] before = {};
    byte[] comment = {};
    int count = -1;
    long directory = -1;
    boolean isZip64;

    HandZip stored(String name, String content) {
        return stored(name, content.getBytes(StandardCharsets.UTF_8));
    }

    HandZip stored(String name, byte[] content) {
        parts.add(new Part(name, content, content, 0));
        return this;
    }

    HandZip deflated(String name, byte[] content) {
        parts.add(new Part(name, content, deflate(content), 8));
        return this;
    }

    /** A part of so many bytes of one kind, without ever holding them. */
    HandZip repeated(String name, byte what, long times) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Deflater deflater = new Deflater(9, true);
        byte[] block = new byte[65_536];
        java.util.Arrays.fill(block, what);
        byte[] buffer = new byte[65_536];
        CRC32 sum = new CRC32();
        long left = times;
        while (left > 0) {
            int length = (int) Math.min(left, block.length);
            deflater.setInput(block, 0, length);
            sum.update(block, 0, length);
            left -= length;
            while (!deflater.needsInput()) {
                out.write(buffer, 0, deflater.deflate(buffer));
            }
        }
        deflater.finish();
        while (!deflater.finished()) {
            out.write(buffer, 0, deflater.deflate(buffer));
        }
        deflater.end();
        Part part = new Part(name, new byte[0], out.toByteArray(), 8);
        part.crc = sum.getValue();
        part.unpacked = times;
        parts.add(part);
        return this;
    }

    /** Changes what the last part says about itself. */
    HandZip but(Consumer<Part> change) {
        change.accept(parts.get(parts.size() - 1));
        return this;
    }

    static byte[] deflate(byte[] content) {
        Deflater deflater = new Deflater(9, true);
        deflater.setInput(content);
        deflater.finish();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        byte[] buffer = new byte[8192];
        while (!deflater.finished()) {
            out.write(buffer, 0, deflater.deflate(buffer));
        }
        deflater.end();
        return out.toByteArray();
    }

    byte[] bytes() {
        Bytes out = new Bytes();
        out.all(before);
        for (Part part : parts) {
            if (!part.isListedOnly) {
                long at = out.size();
                if (part.header < 0) {
                    part.header = at;
                }
                out.four(0x04034b50)
                        .two(20)
                        .two(part.ownFlags < 0 ? part.flags : part.ownFlags)
                        .two(part.method);
                out.two(0).two(0x5C79).four(part.crc);
                out.four(part.ownPacked < 0 ? part.packed : part.ownPacked);
                out.four(part.ownUnpacked < 0 ? part.unpacked : part.ownUnpacked);
                out.two(part.ownName.length)
                        .two(0)
                        .all(part.ownName)
                        .all(part.data)
                        .all(part.behind);
            }
        }
        long start = out.size();
        for (Part part : parts) {
            out.four(0x02014b50)
                    .two(20)
                    .two(20)
                    .two(part.flags)
                    .two(part.method)
                    .two(0)
                    .two(0x5C79);
            out.four(part.crc).four(part.packed).four(part.unpacked);
            out.two(part.name.length)
                    .two(part.extra.length)
                    .two(0)
                    .two(0)
                    .two(0)
                    .four(0);
            out.four(part.header).all(part.name).all(part.extra);
        }
        long size = out.size() - start;
        int said = count < 0 ? parts.size() : count;
        if (isZip64) {
            long end = out.size();
            out.four(0x06064b50).eight(44).two(45).two(45).four(0).four(0);
            out.eight(said).eight(said).eight(size).eight(start);
            out.four(0x07064b50).four(0).eight(end).four(1);
            out.four(0x06054b50)
                    .two(0)
                    .two(0)
                    .two(0xFFFF)
                    .two(0xFFFF)
                    .four(0xFFFFFFFFL)
                    .four(0xFFFFFFFFL);
        } else {
            out.four(0x06054b50)
                    .two(0)
                    .two(0)
                    .two(said & 0xFFFF)
                    .two(said & 0xFFFF)
                    .four(size);
            out.four(directory < 0 ? start : directory);
        }
        return out.two(comment.length).all(comment).toBytes();
    }

    /** Little-endian numbers in a row. */
    static final class Bytes {
        private final ByteArrayOutputStream out = new ByteArrayOutputStream();

        Bytes two(long value) {
            out.write((int) value);
            out.write((int) (value >> 8));
            return this;
        }

        Bytes four(long value) {
            return two(value).two(value >> 16);
        }

        Bytes eight(long value) {
            return four(value).four(value >> 32);
        }

        Bytes all(byte[] bytes) {
            out.writeBytes(bytes);
            return this;
        }

        long size() {
            return out.size();
        }

        byte[] toBytes() {
            return out.toByteArray();
        }
    }
}
