package gylewarden.web;

/** A request is not done; the problem says why. */
final class Refused extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient Problem problem;

    Refused(Problem problem) {
        super(problem.detail());
        this.problem = problem;
    }

    Refused(Problem.Kind kind, String detail) {
        this(Problem.of(kind, detail));
    }

    Problem problem() {
        return problem;
    }
}
