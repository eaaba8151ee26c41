package gylewarden.app.config;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** An address of this machine and a port, 1 to 65535. */
public record Listen(String host, int port) {
    private static final Pattern WRITTEN = Pattern.compile("(\\[[0-9A-Fa-f:.]+\\]|[A-Za-z0-9.-]+):(\\d{1,5})");
    private static final Pattern LOOPBACK =
            Pattern.compile("127\\.\\d{1,3}\\.\\d{1,3}\\.\\d{1,3}|\\[::1\\]|localhost", Pattern.CASE_INSENSITIVE);

    static final Listen DEFAULT = new Listen("127.0.0.1", 8080);

    static Optional<Listen> parse(String text) {
        Matcher parts = WRITTEN.matcher(text);
        if (!parts.matches()) return Optional.empty();
        int port = Integer.parseInt(parts.group(2));
        return port < 1 || port > 65535 ? Optional.empty() : Optional.of(new Listen(parts.group(1), port));
    }

    /** Whether only this machine can reach it. */
    boolean isLoopback() {
        return LOOPBACK.matcher(host).matches();
    }
}
