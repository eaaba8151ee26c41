package gylewarden.link;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.nio.file.NoSuchFileException;
import java.security.cert.CertPathBuilderException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.util.Optional;
import javax.net.ssl.SSLException;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.common.MqttException;

/** What keeps us from a broker, in words for its owner. */
final class Failures {
    // MQTT 5.0, section 2.4: reason codes.
    private static final int BAD_USER_OR_PASSWORD = 0x86;
    private static final int NOT_AUTHORIZED = 0x87;
    private static final int SERVER_SHUTTING_DOWN = 0x8B;
    private static final int SESSION_TAKEN_OVER = 0x8E;
    private static final int CLIENT_ID_NOT_VALID = 0x85;
    private static final int PACKET_TOO_LARGE = 0x95;
    private static final int QUOTA_EXCEEDED = 0x97;
    private static final int UNSUPPORTED_VERSION = 0x84;

    private Failures() {}

    static String of(Broker broker, Throwable failure) {
        String address = broker.address();
        if (find(failure, CertificateExpiredException.class).isPresent())
            return address + " shows a certificate that has expired (or this board's clock is wrong)";
        if (find(failure, CertificateNotYetValidException.class).isPresent())
            return address + " shows a certificate that is not valid yet: is this board's clock right?";
        if (find(failure, CertPathBuilderException.class).isPresent())
            return address + " shows a certificate of an authority that is not trusted: set ca_file under [mqtt]";
        Optional<CertificateException> certificate = find(failure, CertificateException.class);
        if (certificate.isPresent()) return address + ": its certificate is not accepted: " + words(certificate.get());
        if (find(failure, NoSuchFileException.class).isPresent())
            return "the file of ca_file under [mqtt] is not there: " + words(failure);
        if (find(failure, SSLException.class).isPresent())
            return address + ": no encrypted connection comes about: " + words(failure) + "; does it speak TLS there?";
        if (find(failure, UnknownHostException.class).isPresent())
            return "the name " + broker.host() + " is not known to the network";
        if (find(failure, ConnectException.class).isPresent())
            return "nothing answers at " + address + ": does the broker run there?";
        if (find(failure, NoRouteToHostException.class).isPresent())
            return "the network knows no way to " + broker.host();
        if (find(failure, SocketTimeoutException.class).isPresent()) return address + " does not answer";
        if (find(failure, EOFException.class).isPresent()) return address + " has ended the connection";
        return find(failure, MqttException.class)
                .map(known -> ofLibrary(address, known))
                .orElseGet(() -> address + ": " + words(failure));
    }

    private static String ofLibrary(String address, MqttException failure) {
        int code = failure.getReasonCode();
        if (code == MqttClientException.REASON_CODE_CLIENT_TIMEOUT) return address + " does not answer";
        if (code == MqttClientException.REASON_CODE_CONNECTION_LOST
                || code == MqttClientException.REASON_CODE_CLIENT_NOT_CONNECTED
                || code == MqttClientException.REASON_CODE_CLIENT_DISCONNECTING
                || code == MqttClientException.REASON_CODE_CLIENT_CLOSED)
            return "the connection to " + address + " is lost";
        return address + ": " + ofReason(code);
    }

    static String ofReason(int code) {
        return switch (code) {
            case BAD_USER_OR_PASSWORD, NOT_AUTHORIZED ->
                "it refuses us: look at user and password under [mqtt], and at what this user may do there";
            case SERVER_SHUTTING_DOWN -> "it shuts down";
            case SESSION_TAKEN_OVER -> "another client uses the same client id";
            case CLIENT_ID_NOT_VALID -> "it does not accept our client id";
            case PACKET_TOO_LARGE -> "a message is too large for it";
            case QUOTA_EXCEEDED -> "it has had enough of us";
            case UNSUPPORTED_VERSION, 1 -> "it does not speak MQTT 5";
            default -> "MQTT reason code " + code;
        };
    }

    private static <T extends Throwable> Optional<T> find(Throwable failure, Class<T> kind) {
        Optional<Throwable> each = Optional.of(failure);
        while (each.isPresent()) {
            if (kind.isInstance(each.get())) return each.map(kind::cast);
            each = each.map(Throwable::getCause);
        }
        return Optional.empty();
    }

    private static String words(Throwable failure) {
        return Optional.ofNullable(failure.getMessage()).orElse(failure.toString());
    }
}
