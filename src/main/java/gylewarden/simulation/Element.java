package gylewarden.simulation;

/** The two probes of a virtual chamber. */
public enum Element {
    BEER_PROBE,
    AIR_PROBE
}
