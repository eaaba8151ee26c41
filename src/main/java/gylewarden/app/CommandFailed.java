package gylewarden.app;

/** A command could not do its work, for a reason outside this program; the message says what, where, and what to do. */
public final class CommandFailed extends Exception {
    private static final long serialVersionUID = 1L;

    public CommandFailed(String message) {
        super(message);
    }
}
