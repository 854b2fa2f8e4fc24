package org.steamwright.desk.tablet;

import java.io.IOException;
import java.io.InputStream;
import java.net.CookieManager;
import java.net.http.HttpClient;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;

/** A browser in the local network whose owner has compared the fingerprint and trusts the laptop's own certificate. */
public final class TabletBrowser {

    private TabletBrowser() {}

    /**
     * A browser with cookies that trusts one certificate and no other.
     *
     * @param store of the laptop, with its key and certificate
     * @param secret of the store
     */
    public static HttpClient trusting(Path store, String secret) throws IOException, GeneralSecurityException {
        KeyStore known = KeyStore.getInstance("PKCS12");
        try (InputStream in = Files.newInputStream(store)) {
            known.load(in, secret.toCharArray());
        }
        KeyStore trusted = KeyStore.getInstance("PKCS12");
        trusted.load(null, null);
        trusted.setCertificateEntry("laptop", known.getCertificate("desk"));
        TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trust.init(trusted);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, trust.getTrustManagers(), null);
        return HttpClient.newBuilder()
                .sslContext(context)
                .cookieHandler(new CookieManager())
                .build();
    }
}
