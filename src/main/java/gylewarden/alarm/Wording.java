package gylewarden.alarm;

/** Says what is the matter, in the sentence of a {@link Finding}; {@code journal.AlarmMatters} does. */
public interface Wording {
    /** Of a rule that looks at a chamber, while it speaks. */
    String matter(Rule rule, Sight sight);

    /** Of a rule that looks at the board, while it speaks. */
    String matter(Key key, BoardSight board);
}
