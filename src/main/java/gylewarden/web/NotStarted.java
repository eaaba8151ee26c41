package gylewarden.web;

/** The page and its API can't be served; the message says why and what to do. Nothing listens then. */
public final class NotStarted extends Exception {
    private static final long serialVersionUID = 1L;

    NotStarted(String message) {
        super(message);
    }
}
