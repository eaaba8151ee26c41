/**
 * What is published to a message broker: each chamber as the API gives it, and whether the daemon is there. Knows topics and
 * when to speak; how a chamber is written as text is handed in, and how a message travels is the link's. Start at {@link
 * gylewarden.mqtt.Publisher}.
 */
package gylewarden.mqtt;
