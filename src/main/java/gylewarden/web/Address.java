package gylewarden.web;

import java.util.List;
import java.util.regex.Pattern;

/**
 * Where the server listens: an address that only this machine can reach, for nobody is asked to sign in yet.
 *
 * @param host without brackets
 * @param port 0 for any that is free
 */
public record Address(String host, int port) {
    /** RFC 1122 3.2.1.3 (127.0.0.0/8) and RFC 4291 2.5.3 (::1); the name, RFC 6761 6.3. */
    private static final Pattern LOOPBACK =
            Pattern.compile("127\\.\\d{1,3}\\.\\d{1,3}\\.\\d{1,3}|::1|localhost", Pattern.CASE_INSENSITIVE);

    /**
     * Checks before anything listens.
     *
     * @param host as the config has it, an IPv6 address in brackets
     * @throws NotStarted if any other machine could reach it
     */
    public static Address of(String host, int port) throws NotStarted {
        boolean bracketed = host.startsWith("[") && host.endsWith("]");
        String bare = bracketed ? host.substring(1, host.length() - 1) : host;
        if (LOOPBACK.matcher(bare).matches()) return new Address(bare, port);
        throw new NotStarted("The page cannot listen on " + host + ":" + port
                + ": other machines could reach it there, and this version asks nobody to sign in. Write listen ="
                + " \"127.0.0.1:" + port + "\" under [web]; from another machine, reach it through ssh -L " + port
                + ":127.0.0.1:" + port + ". Nothing was started.");
    }

    /** What a browser on this machine may have written to get here, once the port is known. */
    List<String> names(int realPort) {
        String own = host.contains(":") ? "[" + host + "]" : host;
        return List.of(own, "127.0.0.1", "localhost", "[::1]").stream()
                .map(name -> name + ":" + realPort)
                .distinct()
                .toList();
    }
}
