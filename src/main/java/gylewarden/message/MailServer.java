package gylewarden.message;

import java.util.List;
import java.util.Optional;
import javax.net.ssl.SSLSocketFactory;

/**
 * Where e-mail is handed over.
 *
 * @param port usually 465 for {@link Security#TLS} and 587 for {@link Security#STARTTLS} (RFC 8314)
 * @param login absent where the server asks for none
 * @param from an address
 * @param to addresses
 * @param trust whose certificates are believed; absent: those that the system believes
 */
public record MailServer(
        String host,
        int port,
        Security security,
        Optional<Login> login,
        String from,
        List<String> to,
        Optional<SSLSocketFactory> trust) {
    public MailServer {
        to = List.copyOf(to);
    }

    /** How the way there is guarded. */
    public enum Security {
        /** TLS from the first byte. */
        TLS,
        /** TLS is asked for, and insisted on, before anything else is said. */
        STARTTLS,
        /** In the clear: for a server on the same board only. */
        NONE
    }

    /** Its text shows no password. */
    public record Login(String user, String password) {
        @Override
        public String toString() {
            return "Login[" + user + "]";
        }
    }
}
