package org.kornspur.processors.stream;

import java.util.Optional;
import org.kornspur.processors.dossier.Report;

/**
 * That a sender's report to a receiver is new, changed, or no longer holds.
 *
 * @param sender who tells
 * @param report the report; empty when the sender takes it back
 */
record ReportChange(String sender, Optional<Report> report) {}
