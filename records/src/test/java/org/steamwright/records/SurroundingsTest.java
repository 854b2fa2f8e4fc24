package org.steamwright.records;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SurroundingsTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource({
        "nfs4, true",
        "CIFS, true",
        "fuse.sshfs, true",
        "9p, true",
        "ext4, false",
        "btrfs, false",
        "tmpfs, false",
        "NTFS, false"
    })
    void knows_file_systems_on_a_network(String type, boolean isNetwork) {
        assertThat(Surroundings.isNetwork(type)).isEqualTo(isNetwork);
    }

    @Test
    void warns_of_a_folder_that_is_kept_equal_elsewhere() throws Exception {
        Path plain = folder.resolve("plain");
        Path marked = folder.resolve("marked");
        Files.createDirectories(marked.resolve(".stfolder"));
        assertThat(Surroundings.isSynchronised(plain)).isFalse();
        assertThat(Surroundings.isSynchronised(marked.resolve("records"))).isTrue();
        assertThat(Surroundings.isSynchronised(
                        folder.resolve("OneDrive - Example").resolve("records")))
                .isTrue();
        try (Records records = Records.open(Place.folder(marked), new TestClock())) {
            assertThat(records.warnings()).singleElement().asString().startsWith("RECORD-019 " + marked);
        }
        try (Records records = Records.open(Place.folder(plain), new TestClock())) {
            assertThat(records.warnings()).isEmpty();
        }
    }

    @Test
    void a_folder_that_can_not_be_made_is_told() throws Exception {
        Path file = folder.resolve("file");
        Files.writeString(file, "x");
        assertThatThrownBy(() -> Records.open(Place.folder(file.resolve("store")), new TestClock()))
                .hasMessageStartingWith("RECORD-001");
        Files.createDirectories(Place.folder(folder.resolve("odd")).database());
        assertThatThrownBy(() -> Records.open(Place.folder(folder.resolve("odd")), new TestClock()))
                .hasMessageStartingWith("RECORD-005");
        assertThatThrownBy(() -> new Place(folder, java.util.Optional.of("jdbc:mysql://x")))
                .hasMessageContaining("begins with jdbc:postgresql:");
    }

    /** RFC 9562: version 7, variant 2, sorted by the time of making even if the clock goes back. */
    @Test
    void identities_sort_by_their_making() {
        TestClock clock = new TestClock();
        Identities identities = new Identities(clock, new java.util.SplittableRandom(1));
        UUID first = identities.next();
        clock.forward(java.time.Duration.ofSeconds(-5));
        var made = IntStream.range(0, 10_000)
                .mapToObj(i -> {
                    if (i % 1_000 == 0) {
                        clock.forward(java.time.Duration.ofSeconds(1));
                    }
                    return identities.next();
                })
                .map(UUID::toString)
                .toList();
        assertThat(made).isSorted().doesNotHaveDuplicates();
        assertThat(made.get(0)).isGreaterThan(first.toString());
        assertThat(first.version()).isEqualTo(7);
        assertThat(first.variant()).isEqualTo(2);
        assertThat(first.getMostSignificantBits() >>> 16)
                .isEqualTo(java.time.Instant.parse("2026-03-02T09:00:00Z").toEpochMilli());
    }
}
