package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.SocketTimeoutException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.intake.HostileXml;

/** Certificates that try to make the reader open a file or a connection: none comes to anything. */
class HostileCertificatesTest {

    private static final String SECRET = "CANARY-7319";
    private static final String HONEST =
            "<dcc:digitalCalibrationCertificate xmlns:dcc=\"https://ptb.de/dcc\" schemaVersion=\"3.3.0\"/>";

    @TempDir
    Path folder;

    @Test
    void xml_opens_no_file_and_no_connection() throws IOException {
        Path secret = Files.writeString(folder.resolve("secret.txt"), SECRET);
        try (ServerSocket server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            server.setSoTimeout(1);
            List<HostileXml.Payload> payloads = HostileXml.all(
                    "http://127.0.0.1:" + server.getLocalPort() + "/x",
                    secret.toUri().toString());
            assertThat(payloads).hasSizeGreaterThanOrEqualTo(100);
            List<Long> cost = new ArrayList<>();
            for (HostileXml.Payload payload : payloads) {
                byte[] xml = payload.in(HONEST);
                long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
                try {
                    DigitalCertificates.read(xml, "certificate.xml", TrustAnchors.NONE);
                    assertThat(payload.hasDocumentType()).as(payload.name()).isFalse();
                } catch (UnreadableCertificateException refused) {
                    assertThat(refused.getMessage()).as(payload.name()).doesNotContain(SECRET);
                    if (payload.hasDocumentType()) {
                        assertThat(refused.id()).as(payload.name()).isEqualTo(CertificateMessage.REFUSED_XML);
                    }
                }
                cost.add(ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before);
            }
            cost.sort(null);
            assertThat(cost.get(cost.size() / 2))
                    .as("median, in nanoseconds of the processor")
                    .isLessThan(100_000_000L);
            assertThat(asked(server)).as("nobody asked the server").isFalse();
        }
    }

    private static boolean asked(ServerSocket server) throws IOException {
        try {
            server.accept().close();
            return true;
        } catch (SocketTimeoutException nobody) {
            return false;
        }
    }
}
