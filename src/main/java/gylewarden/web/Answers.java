package gylewarden.web;

import gylewarden.batch.Batch;
import gylewarden.chamber.Answer;
import gylewarden.schedule.Mistake;
import gylewarden.web.Problem.Kind;
import java.util.Optional;
import java.util.stream.Collectors;

/** What a desk answered, as the API says it. */
final class Answers {
    private Answers() {}

    /** @throws Refused if the desk refused */
    static Answer.Done done(Answer answer) throws Refused {
        Optional<Problem> problem = answer.fold(done -> Optional.empty(), refused -> Optional.of(problem(refused)));
        if (problem.isPresent()) throw new Refused(problem.get());
        return answer.fold(done -> done, refused -> {
            throw new IllegalStateException("refused and done at once");
        });
    }

    static Batch batch(Answer answer) throws Refused {
        return done(answer).batch().orElseThrow(() -> new IllegalStateException("an answer without its batch"));
    }

    /** @throws Refused if there is a reason to refuse */
    static void allow(Optional<Answer.Refused> refused) throws Refused {
        if (refused.isPresent()) throw new Refused(problem(refused.get()));
    }

    private static Problem problem(Answer.Refused refused) {
        boolean ofTheBody =
                refused.mistakes().stream().anyMatch(mistake -> !mistake.field().isEmpty());
        Kind kind = switch (refused.why()) {
            case NOT_FOUND -> ofTheBody ? Kind.UNPROCESSABLE_CONTENT : Kind.NOT_FOUND;
            case NOT_NOW -> Kind.CONFLICT;
            case NOT_ALLOWED -> Kind.UNPROCESSABLE_CONTENT;
            case STALE -> Kind.PRECONDITION_FAILED;
        };
        if (kind == Kind.UNPROCESSABLE_CONTENT && ofTheBody) return Problem.mistakes(refused.mistakes());
        String detail = refused.mistakes().stream().map(Mistake::message).collect(Collectors.joining(" "));
        return new Problem(kind, detail, refused.mistakes());
    }
}
