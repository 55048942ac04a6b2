package org.kornspur.api.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import org.eclipse.elk.alg.layered.options.LayeredMetaDataProvider;
import org.eclipse.elk.alg.layered.options.LayeredOptions;
import org.eclipse.elk.core.RecursiveGraphLayoutEngine;
import org.eclipse.elk.core.data.LayoutMetaDataService;
import org.eclipse.elk.core.math.ElkPadding;
import org.eclipse.elk.core.options.CoreOptions;
import org.eclipse.elk.core.options.Direction;
import org.eclipse.elk.core.options.EdgeLabelPlacement;
import org.eclipse.elk.core.options.EdgeRouting;
import org.eclipse.elk.core.options.SizeConstraint;
import org.eclipse.elk.core.util.NullElkProgressMonitor;
import org.eclipse.elk.graph.ElkEdge;
import org.eclipse.elk.graph.ElkEdgeSection;
import org.eclipse.elk.graph.ElkLabel;
import org.eclipse.elk.graph.ElkNode;
import org.eclipse.elk.graph.util.ElkGraphUtil;
import org.kornspur.api.web.PedigreeDrawing.Box;
import org.kornspur.api.web.PedigreeDrawing.Face;
import org.kornspur.api.web.PedigreeDrawing.Line;
import org.kornspur.api.web.PedigreeDrawing.Season;
import org.kornspur.ingest.contract.Subject;

/**
 * Lays out a pedigree in columns by season with the layered algorithm of the Eclipse Layout Kernel,
 * so that edges and their kilograms cross as little as can be and nothing overlaps.
 */
final class PedigreeLayout {
  private static final int BOX_WIDTH = 168;
  private static final int BOX_HEIGHT = 50;
  private static final int LABEL_HEIGHT = 16;
  private static final double LABEL_WIDTH_PER_CHARACTER = 7.5;
  private static final int ROOM_FOR_SEASONS = 34;
  private static final int GAP = 16;

  static {
    LayoutMetaDataService.getInstance()
        .registerLayoutMetaDataProviders(new LayeredMetaDataProvider());
  }

  private PedigreeLayout() {}

  /**
   * @param faces what each shows
   * @param seasonNames name of each column
   * @param kg writes kilograms
   */
  static PedigreeDrawing draw(
      PedigreeCut cut,
      Subject start,
      Map<Subject, Face> faces,
      Map<Integer, String> seasonNames,
      Function<Double, String> kg) {
    ElkNode graph = graph();
    Map<Subject, ElkNode> nodes = new HashMap<>();
    cut.nodes().stream()
        .sorted(Comparator.naturalOrder())
        .forEach(subject -> nodes.put(subject, node(graph, faces.get(subject).column())));
    List<ElkEdge> edges = new ArrayList<>();
    for (PedigreeCut.Link link : cut.links()) {
      edges.add(edge(nodes.get(link.parent()), nodes.get(link.child()), kg.apply(link.massKg())));
    }
    new RecursiveGraphLayoutEngine().layout(graph, new NullElkProgressMonitor());
    return new PedigreeDrawing(
        (int) Math.ceil(graph.getWidth()),
        (int) Math.ceil(graph.getHeight()),
        seasons(nodes, faces, seasonNames, graph.getWidth()),
        cut.nodes().stream()
            .map(
                subject ->
                    new Box(
                        (int) Math.round(nodes.get(subject).getX()),
                        (int) Math.round(nodes.get(subject).getY()),
                        BOX_WIDTH,
                        BOX_HEIGHT,
                        faces.get(subject),
                        subject.equals(start)))
            .sorted(Comparator.comparingInt(Box::x).thenComparingInt(Box::y))
            .toList(),
        lines(cut.links(), edges));
  }

  private static ElkNode graph() {
    ElkNode graph = ElkGraphUtil.createGraph();
    graph.setProperty(CoreOptions.ALGORITHM, LayeredOptions.ALGORITHM_ID);
    graph.setProperty(LayeredOptions.DIRECTION, Direction.RIGHT);
    graph.setProperty(LayeredOptions.EDGE_ROUTING, EdgeRouting.POLYLINE);
    graph.setProperty(LayeredOptions.PARTITIONING_ACTIVATE, true);
    graph.setProperty(LayeredOptions.SPACING_NODE_NODE, (double) GAP);
    graph.setProperty(LayeredOptions.SPACING_NODE_NODE_BETWEEN_LAYERS, 3.0 * GAP);
    graph.setProperty(LayeredOptions.SPACING_EDGE_LABEL, 2.0);
    graph.setProperty(
        LayeredOptions.PADDING, new ElkPadding(ROOM_FOR_SEASONS + GAP, GAP, GAP, GAP));
    return graph;
  }

  private static ElkNode node(ElkNode graph, int column) {
    ElkNode node = ElkGraphUtil.createNode(graph);
    node.setDimensions(BOX_WIDTH, BOX_HEIGHT);
    node.setProperty(LayeredOptions.NODE_SIZE_CONSTRAINTS, EnumSet.noneOf(SizeConstraint.class));
    node.setProperty(LayeredOptions.PARTITIONING_PARTITION, column);
    return node;
  }

  private static ElkEdge edge(ElkNode from, ElkNode to, String text) {
    ElkEdge edge = ElkGraphUtil.createSimpleEdge(from, to);
    ElkLabel label = ElkGraphUtil.createLabel(text, edge);
    label.setDimensions(text.length() * LABEL_WIDTH_PER_CHARACTER + GAP, LABEL_HEIGHT);
    label.setProperty(LayeredOptions.EDGE_LABELS_PLACEMENT, EdgeLabelPlacement.CENTER);
    return edge;
  }

  /** Columns reach to the middle of the gap between their boxes and those of the next. */
  private static List<Season> seasons(
      Map<Subject, ElkNode> nodes,
      Map<Subject, Face> faces,
      Map<Integer, String> names,
      double width) {
    SortedMap<Integer, Double> leftmost = new TreeMap<>();
    nodes.forEach(
        (subject, node) -> leftmost.merge(faces.get(subject).column(), node.getX(), Math::min));
    List<Integer> columns = List.copyOf(leftmost.keySet());
    List<Season> seasons = new ArrayList<>();
    for (int i = 0; i < columns.size(); i++) {
      double from = i == 0 ? 0 : leftmost.get(columns.get(i)) - GAP;
      double to = i + 1 < columns.size() ? leftmost.get(columns.get(i + 1)) - GAP : width;
      seasons.add(
          new Season(
              names.get(columns.get(i)), (int) Math.round(from), (int) Math.round(to - from)));
    }
    return seasons;
  }

  private static List<Line> lines(List<PedigreeCut.Link> links, List<ElkEdge> edges) {
    List<Line> lines = new ArrayList<>();
    for (int i = 0; i < links.size(); i++) {
      line(links.get(i), edges.get(i)).ifPresent(lines::add);
    }
    return lines;
  }

  private static Optional<Line> line(PedigreeCut.Link link, ElkEdge edge) {
    if (edge.getSections().isEmpty()) {
      return Optional.empty();
    }
    ElkEdgeSection section = edge.getSections().get(0);
    List<String> points = new ArrayList<>();
    points.add(point(section.getStartX(), section.getStartY()));
    section.getBendPoints().forEach(bend -> points.add(point(bend.getX(), bend.getY())));
    points.add(point(section.getEndX(), section.getEndY()));
    ElkLabel label = edge.getLabels().get(0);
    return Optional.of(
        new Line(
            String.join(" ", points),
            (int) Math.round(label.getX() + label.getWidth() / 2),
            (int) Math.round(label.getY() + LABEL_HEIGHT - 4),
            label.getText(),
            link.troubled()));
  }

  private static String point(double x, double y) {
    return Math.round(x) + "," + Math.round(y);
  }
}
