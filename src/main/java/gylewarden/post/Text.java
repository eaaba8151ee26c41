package gylewarden.post;

/**
 * What a message says; temperatures as {@code Scale.NEUTRAL} writes them.
 *
 * @param subject one line
 * @param body plain text of some lines
 */
public record Text(String subject, String body) {}
