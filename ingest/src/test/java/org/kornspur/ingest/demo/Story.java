package org.kornspur.ingest.demo;

import java.util.List;

/**
 * A piece of trouble that the demo holds.
 *
 * @param folder folder of its files below {@code stories/}
 * @param title in a few words
 * @param facts what happens
 * @param lookAt subjects to look at, in text form
 * @param shouldShow what should be seen there
 */
record Story(String folder, String title, String facts, List<String> lookAt, String shouldShow) {}
