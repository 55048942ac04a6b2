package org.kornspur.processors.stream;

import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.Plot;

/**
 * That a plot came into a cell, changed, or left it.
 *
 * @param subject whose plot
 * @param plot the plot; empty when it left
 */
record PlotChange(Subject subject, Optional<Plot> plot) implements DossierRecord {}
