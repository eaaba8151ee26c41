package gylewarden.link;

import java.net.Socket;
import java.security.cert.CertificateException;
import java.security.cert.X509Certificate;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.X509ExtendedTrustManager;

/**
 * Looks at the dates of a broker's certificate, too. The platform does not where the certificate itself stands among the
 * authorities, as one that vouches for itself does: such a one would be good for ever.
 */
final class Dated extends X509ExtendedTrustManager {
    private final X509ExtendedTrustManager platform;

    Dated(X509ExtendedTrustManager platform) {
        this.platform = platform;
    }

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String kind, Socket socket) throws CertificateException {
        platform.checkServerTrusted(chain, kind, socket);
        dates(chain);
    }

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String kind, SSLEngine engine) throws CertificateException {
        platform.checkServerTrusted(chain, kind, engine);
        dates(chain);
    }

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String kind) throws CertificateException {
        platform.checkServerTrusted(chain, kind);
        dates(chain);
    }

    private static void dates(X509Certificate[] chain) throws CertificateException {
        for (X509Certificate certificate : chain) certificate.checkValidity();
    }

    @Override
    public void checkClientTrusted(X509Certificate[] chain, String kind, Socket socket) throws CertificateException {
        platform.checkClientTrusted(chain, kind, socket);
    }

    @Override
    public void checkClientTrusted(X509Certificate[] chain, String kind, SSLEngine engine) throws CertificateException {
        platform.checkClientTrusted(chain, kind, engine);
    }

    @Override
    public void checkClientTrusted(X509Certificate[] chain, String kind) throws CertificateException {
        platform.checkClientTrusted(chain, kind);
    }

    @Override
    public X509Certificate[] getAcceptedIssuers() {
        return platform.getAcceptedIssuers();
    }
}
