package gylewarden.link;

import gylewarden.units.Uptime;

/**
 * A message that came.
 *
 * @param text read as UTF-8
 * @param stored whether the broker had kept it: then nobody knows how old it is, and it says nothing about now
 */
public record Heard(String topic, String text, boolean stored, Uptime at) {}
