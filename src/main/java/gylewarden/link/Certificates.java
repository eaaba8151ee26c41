package gylewarden.link;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.util.Arrays;
import java.util.Collection;
import java.util.Optional;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;
import javax.net.ssl.X509ExtendedTrustManager;

/** Whose word is taken for it that a broker is the one it says it is. */
public final class Certificates {
    private Certificates() {}

    /**
     * Reads the certificates of authorities, in PEM.
     *
     * @return one or more
     * @throws CertificateException in words, if the file holds none
     */
    public static Collection<? extends Certificate> read(Path file) throws IOException, CertificateException {
        try (InputStream in = Files.newInputStream(file)) {
            Collection<? extends Certificate> found =
                    CertificateFactory.getInstance("X.509").generateCertificates(in);
            if (found.isEmpty()) throw new CertificateException("there is no certificate in " + file);
            return found;
        } catch (CertificateException unreadable) {
            throw new CertificateException("there is no certificate in PEM in " + file, unreadable);
        }
    }

    private static X509ExtendedTrustManager theOne(TrustManagerFactory factory) {
        return Arrays.stream(factory.getTrustManagers())
                .filter(X509ExtendedTrustManager.class::isInstance)
                .map(X509ExtendedTrustManager.class::cast)
                .findFirst()
                .orElseThrow();
    }

    /** @param authorities that are trusted; empty: those that this machine trusts */
    static SSLSocketFactory sockets(Optional<Path> authorities) throws IOException, GeneralSecurityException {
        SSLContext context = SSLContext.getInstance("TLS");
        TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        if (authorities.isPresent()) {
            KeyStore store = KeyStore.getInstance(KeyStore.getDefaultType());
            store.load(null, new char[0]);
            int number = 0;
            for (Certificate authority : read(authorities.get()))
                store.setCertificateEntry("authority-" + number++, authority);
            trust.init(store);
        } else {
            trust.init((KeyStore) null);
        }
        context.init(null, new TrustManager[] {new Dated(theOne(trust))}, null);
        return context.getSocketFactory();
    }
}
