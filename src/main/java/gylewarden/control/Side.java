package gylewarden.control;

/** The two things a chamber can do to the beer. */
public enum Side {
    COOLING,
    HEATING;

    public Side other() {
        return this == COOLING ? HEATING : COOLING;
    }
}
