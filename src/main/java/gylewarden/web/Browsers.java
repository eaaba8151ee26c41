package gylewarden.web;

import io.javalin.http.Context;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Tells browsers apart, so that the record can say which of them did something. The id is random and no secret: it opens
 * nothing.
 */
final class Browsers {
    static final String COOKIE = "browser";

    /** RFC 6265bis caps a cookie's age at 400 days; from memory. */
    private static final Duration AGE = Duration.ofDays(400);

    private static final Pattern ID = Pattern.compile("[0-9a-f]{16}");
    private static final int SHOWN = 6;

    private final SecureRandom random = new SecureRandom();

    /** Gives a browser that has none its id. */
    void greet(Context context) {
        if (known(context).isPresent()) return;
        byte[] bytes = new byte[8];
        random.nextBytes(bytes);
        String id = HexFormat.of().formatHex(bytes);
        context.attribute(COOKIE, id);
        context.header(
                "Set-Cookie",
                COOKIE + "=" + id + "; Path=/; Max-Age=" + AGE.toSeconds() + "; HttpOnly; SameSite=Strict");
    }

    String actor(Context context) {
        String id = known(context).orElseGet(() -> String.valueOf(context.<Object>attribute(COOKIE)));
        return "browser " + id.substring(0, SHOWN);
    }

    private static Optional<String> known(Context context) {
        return Optional.ofNullable(context.cookie(COOKIE))
                .filter(id -> ID.matcher(id).matches());
    }
}
