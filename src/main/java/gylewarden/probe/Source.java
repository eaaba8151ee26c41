package gylewarden.probe;

/** Where a {@link PolledProbe} gets its readings. Each kind of probe that has to be asked is one of these. */
public interface Source {
    /** Whatever shares a wire shares this name, and so a thread: one is read after the other. */
    String bus();

    /** One attempt. May take long, or for ever where the hardware hangs; what fails is a {@link Raw.Fails}. */
    Raw read();
}
