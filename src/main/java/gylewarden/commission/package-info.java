/**
 * Commissioning: tries each side of a chamber once, and names what its probes then say about the wiring. Pure: it is told
 * each second what the probes and the relays do, and says what it wants next; the control, the guard and the relays are what
 * they are every day, and know of it only as one more wish. No words and no files live here. Start at
 * {@link gylewarden.commission.Commissioning}.
 */
package gylewarden.commission;
