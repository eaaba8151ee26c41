package gylewarden.store;

/** The record could not be read or written; why is a value that travels on. */
public final class RecordFailed extends Exception {
    private static final long serialVersionUID = 1;

    private final transient Trouble trouble;

    public RecordFailed(Trouble trouble) {
        super(trouble.sentence());
        this.trouble = trouble;
    }

    RecordFailed(Trouble trouble, Exception cause) {
        super(trouble.sentence(), cause);
        this.trouble = trouble;
    }

    public Trouble trouble() {
        return trouble;
    }
}
