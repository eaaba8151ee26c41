package gylewarden.app.config;

import java.util.List;

/** A file that a person wrote has mistakes. Its message is the whole report, a line each. */
public final class WrongFile extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient List<Mistake> mistakes;

    /** @param name the file's name as it is to stand before each line */
    public WrongFile(String name, List<Mistake> mistakes) {
        super(Report.of(name, mistakes));
        this.mistakes = List.copyOf(mistakes);
    }

    public List<Mistake> mistakes() {
        return mistakes;
    }
}
