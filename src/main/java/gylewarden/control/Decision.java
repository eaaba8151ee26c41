package gylewarden.control;

/** What each relay is asked for this tick, and why. Never both energised. */
public record Decision(Contact cooling, Contact heating, Reason reason) {
    /** @throws IllegalArgumentException if both are energised */
    public Decision {
        if (cooling == Contact.ENERGISED && heating == Contact.ENERGISED)
            throw new IllegalArgumentException("cooling and heating energised together");
    }

    public static Decision off(Reason reason) {
        return new Decision(Contact.RELEASED, Contact.RELEASED, reason);
    }

    public static Decision energise(Side side, Reason reason) {
        return side == Side.COOLING
                ? new Decision(Contact.ENERGISED, Contact.RELEASED, reason)
                : new Decision(Contact.RELEASED, Contact.ENERGISED, reason);
    }

    public Contact of(Side side) {
        return side == Side.COOLING ? cooling : heating;
    }
}
