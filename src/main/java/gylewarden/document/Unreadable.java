package gylewarden.document;

/** What was kept can't be read back: written by a newer version, or damaged. */
public final class Unreadable extends Exception {
    private static final long serialVersionUID = 1;

    /** @param what is wrong with it */
    public Unreadable(String what) {
        super(what);
    }
}
