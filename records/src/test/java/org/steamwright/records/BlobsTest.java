package org.steamwright.records;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.records.proof.Hash;

class BlobsTest {

    static final byte[] CONTENT = "time;T1\n10:00:00;134.5\n".repeat(9_000).getBytes(StandardCharsets.UTF_8);

    @TempDir
    Path folder;

    @Test
    void a_file_lies_under_its_hash_and_is_kept_once() throws IOException {
        Blobs blobs = new Blobs(folder.resolve("files"));
        KeptFile first = blobs.put(CONTENT);
        assertThat(first).isEqualTo(new KeptFile(Hash.ofContent(CONTENT), CONTENT.length));
        assertThat(blobs.put(CONTENT)).isEqualTo(first);
        assertThat(blobs.all()).containsExactly(first.sha256());
        assertThat(blobs.get(first.sha256())).isEqualTo(CONTENT);
        assertThat(folder.resolve("files")
                        .resolve(first.sha256().hex().substring(0, 2))
                        .resolve(first.sha256().hex().substring(2)))
                .hasBinaryContent(CONTENT);
    }

    @Test
    void a_damaged_file_is_neither_read_nor_taken_for_the_same() throws IOException {
        Blobs blobs = new Blobs(folder.resolve("files"));
        Hash sha256 = blobs.put(CONTENT).sha256();
        byte[] damaged = CONTENT.clone();
        damaged[100] ^= 1;
        Files.write(blobs.path(sha256), damaged);
        assertThatThrownBy(() -> blobs.get(sha256)).hasMessageStartingWith("RECORD-017");
        assertThatThrownBy(() -> blobs.put(CONTENT)).hasMessageStartingWith("RECORD-017");
        assertThat(Files.readAllBytes(blobs.path(sha256))).as("never altered").isEqualTo(damaged);
        Files.delete(blobs.path(sha256));
        assertThatThrownBy(() -> blobs.get(sha256)).hasMessageStartingWith("RECORD-016");
    }

    /** Fails at one step, or at that and all later ones; a write that fails has written half. */
    private static final class FailingDisk extends Disk {

        private final int failAt;
        private final boolean isForEver;
        private int step;

        FailingDisk(int failAt, boolean isForEver) {
            this.failAt = failAt;
            this.isForEver = isForEver;
        }

        private void step() throws IOException {
            step++;
            if (step == failAt || (isForEver && step > failAt)) {
                throw new IOException("No space left on device");
            }
        }

        @Override
        void createFolder(Path made) throws IOException {
            step();
            super.createFolder(made);
        }

        @Override
        FileChannel create(Path file) throws IOException {
            step();
            return super.create(file);
        }

        @Override
        void write(FileChannel channel, ByteBuffer bytes) throws IOException {
            int half = bytes.remaining() / 2;
            super.write(channel, bytes.slice(bytes.position(), half));
            step();
            bytes.position(bytes.position() + half);
            super.write(channel, bytes);
        }

        @Override
        void force(FileChannel channel) throws IOException {
            step();
            super.force(channel);
        }

        @Override
        void move(Path from, Path to) throws IOException {
            step();
            super.move(from, to);
        }

        @Override
        void forceFolder(Path made) throws IOException {
            step();
            super.forceFolder(made);
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void an_error_at_any_step_is_told_and_leaves_no_half_file(boolean isForEver) throws IOException {
        int failed = 0;
        for (int step = 1; ; step++) {
            Path own = folder.resolve(isForEver + "-" + step);
            boolean isKept = true;
            try {
                new Blobs(own, new FailingDisk(step, isForEver)).put(CONTENT);
            } catch (RecordsException e) {
                assertThat(e).hasMessageStartingWith("RECORD-015").hasMessageContaining("No space left");
                isKept = false;
                failed++;
            }
            Blobs healthy = new Blobs(own);
            assertThat(healthy.all())
                    .allSatisfy(hash -> assertThat(healthy.complaint(hash)).isEmpty());
            if (Files.exists(own)) {
                try (Stream<Path> files = Files.walk(own)) {
                    assertThat(files.filter(file -> file.toString().endsWith(".part")))
                            .isEmpty();
                }
            }
            assertThat(healthy.get(healthy.put(CONTENT).sha256())).isEqualTo(CONTENT);
            if (isKept) {
                break;
            }
        }
        assertThat(failed)
                .as("folder, file, writes, flushes, move: each failed in turn")
                .isGreaterThanOrEqualTo(9);
    }
}
