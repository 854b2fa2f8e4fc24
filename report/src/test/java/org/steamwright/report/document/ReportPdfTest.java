package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.steamwright.report.SampleVisits;
import org.steamwright.visit.AssessedVisit;

final class ReportPdfTest {

    @Test
    void same_visit_gives_the_same_bytes() throws IOException {
        assertThat(print(SampleVisits.full())).isEqualTo(print(SampleVisits.full()));
    }

    static byte[] print(AssessedVisit visit) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(visit, out);
        Files.write(Path.of("/tmp/rb/full.pdf"), out.toByteArray());
        return out.toByteArray();
    }
}
