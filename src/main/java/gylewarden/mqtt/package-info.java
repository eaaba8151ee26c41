/**
 * What is published to a message broker: each chamber as the API gives it and as home-automation software wants to find it,
 * and whether the daemon is there. Knows topics and when to speak; what the API writes is handed in, and how a message
 * travels is the link's. Start at {@link gylewarden.mqtt.Publisher} and {@link gylewarden.mqtt.Announcer}.
 */
package gylewarden.mqtt;
