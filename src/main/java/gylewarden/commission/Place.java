package gylewarden.commission;

/** Where a probe should sit. */
public enum Place {
    BEER,
    AIR
}
