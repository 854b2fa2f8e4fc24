package org.steamwright.intake.csv;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.steamwright.intake.table.ByteSource;

/** A file that may be another one each time it is opened. */
final class FakeFile implements ByteSource {

    private final String name;
    private final List<byte[]> contents;
    private int opened;

    FakeFile(String name, byte[]... contents) {
        this.name = name;
        this.contents = List.of(contents);
    }

    /** The same text at first, then another one, and so on; the last one stays. */
    static FakeFile ofTexts(String... texts) {
        byte[][] contents = new byte[texts.length][];
        for (int i = 0; i < texts.length; i++) {
            contents[i] = texts[i].getBytes(StandardCharsets.UTF_8);
        }
        return new FakeFile("fake.csv", contents);
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public long size() {
        return contents.get(0).length;
    }

    @Override
    public long sizeNow() {
        return contents.get(contents.size() - 1).length;
    }

    @Override
    public InputStream open() {
        return new ByteArrayInputStream(contents.get(Math.min(opened++, contents.size() - 1)));
    }
}
