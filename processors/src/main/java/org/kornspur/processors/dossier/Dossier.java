package org.kornspur.processors.dossier;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.CategoryRank;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;

/**
 * All that is known of one subject: its facts, and what parents, the hybrid and the ground
 * reported.
 *
 * <p>Entries and reports are held in an order of their own (when it happened, then id; sender), so
 * that everything computed from a dossier is a function of the set of facts and never of the order
 * in which they came.
 *
 * <p>One class because it is one set of facts and reports, and each question to it is short.
 */
public final class Dossier {
  /**
   * Steps after which an ancestor is no longer reported, and nothing is handed down any further:
   * six generations. It bounds how long the ancestors of a mended circle take to die out. A longer
   * circle spans years, so at one lot seed goes out before it came in, and the gate of origin sees
   * that.
   */
  public static final int MOST_STEPS = 24;

  /** Post-control results that are named; that there is one is what counts. */
  private static final int MOST_POST_CONTROLS = 100;

  private final Subject subject;
  private final List<Entry> entries;
  private final List<Report> reports;
  private final List<Edge> edgesIn;
  private final List<Edge> edgesOut;
  private final List<Report.FromParent> parents;
  private final List<SpecificRecord> counting;
  private final Optional<Material> materialAsMade;
  private final Optional<Material> material;

  // held once they are asked for; computed anew they are the same, so nothing guards them
  private List<MassFlow> massFlows;
  private FloweringWindow flowering;

  public Dossier(Subject subject, List<Entry> entries, List<Report> reports) {
    this.subject = subject;
    this.entries = entries.stream().sorted(Entry.BY_TIME_THEN_ID).toList();
    this.reports = reports.stream().sorted(Comparator.comparing(Report::sender)).toList();
    counting = this.entries.stream().filter(Entry::counts).map(Entry::fact).toList();
    List<Edge> edges = counting().flatMap(fact -> Edges.of(fact).stream()).toList();
    edgesIn = edges.stream().filter(edge -> edge.child().equals(subject)).toList();
    edgesOut = edges.stream().filter(edge -> edge.parent().equals(subject)).toList();
    Set<Subject> named = edgesIn.stream().map(Edge::parent).collect(Collectors.toSet());
    parents =
        reportsOf(Report.FromParent.class)
            .filter(report -> named.contains(report.parent()))
            .toList();
    materialAsMade = MaterialOf.dossier(this);
    material = materialAsMade.map(made -> made.in(lowest(made.category())));
  }

  public Subject subject() {
    return subject;
  }

  /** Every fact, superseded ones too, by time and id. */
  public List<Entry> entries() {
    return entries;
  }

  /** Ids of all of them. */
  public Set<String> factIds() {
    return entries.stream().map(Entry::fact).map(FactType::idOf).collect(Collectors.toSet());
  }

  /** What others reported, by sender. */
  public List<Report> reports() {
    return reports;
  }

  /** Facts of one type that wait until somebody with the right to it confirms them. */
  public <T extends SpecificRecord> List<T> awaiting(Class<T> type) {
    return entries.stream()
        .filter(entry -> entry.awaitsConfirmation() && entry.superseded().isEmpty())
        .map(Entry::fact)
        .filter(type::isInstance)
        .map(type::cast)
        .toList();
  }

  /** Facts of one type that still count, by time and id. */
  public <T extends SpecificRecord> List<T> facts(Class<T> type) {
    return counting().filter(type::isInstance).map(type::cast).toList();
  }

  /** The latest fact of one type that still counts. */
  public <T extends SpecificRecord> Optional<T> latest(Class<T> type) {
    List<T> facts = facts(type);
    return facts.isEmpty() ? Optional.empty() : Optional.of(facts.get(facts.size() - 1));
  }

  /** All facts that still count, by time and id. */
  public Stream<SpecificRecord> counting() {
    return counting.stream();
  }

  /**
   * What the parents reported, by sender; only of those that a counting fact names as parent. What
   * is told further is taken from {@link #believedParents()}, or it might go round for ever.
   */
  public List<Report.FromParent> parents() {
    return parents;
  }

  /**
   * The parents that are believed what they tell of themselves. Where wrong facts make a circle,
   * its members are told by nobody in it: each would hear its own words again, for ever, or what
   * was true once and is said by nobody any more.
   */
  public Stream<Report.FromParent> believedParents() {
    return parents.stream()
        .filter(report -> !report.closesCircle())
        .filter(report -> report.stepsHandedDown() < MOST_STEPS);
  }

  /** What one parent reported; empty until it has, and where it is not believed. */
  public Optional<Report.FromParent> parent(Subject parent) {
    return believedParents().filter(report -> report.parent().equals(parent)).findFirst();
  }

  /**
   * Steps down which this subject was told what it is: none for a declared crop, for its own
   * declaration says it all; otherwise one more than the parent that was told furthest. It stays at
   * {@link #MOST_STEPS} where a circle is too long to be seen.
   */
  public int stepsHandedDown() {
    return crop().isPresent()
        ? 0
        : parents.stream()
            .filter(report -> !report.closesCircle())
            .mapToInt(report -> Math.min(report.stepsHandedDown() + 1, MOST_STEPS))
            .max()
            .orElse(0);
  }

  /** The hybrid's master data; empty until the hybrid has been declared. */
  public Optional<Report.Scheme> scheme() {
    return schemes().stream().reduce((earlier, later) -> later);
  }

  /**
   * All that is said of the hybrid, by itself or, where no fact names both, by the mixtures that
   * this lot was made of: of those that differ none can be relied on.
   */
  public List<Report.Scheme> schemes() {
    List<Report.Scheme> told =
        reportsOf(Report.FromHybrid.class).flatMap(report -> report.schemes().stream()).toList();
    Stream<Report.Scheme> handedDown =
        believedParents()
            .flatMap(parent -> parent.mixture().stream())
            .flatMap(mixture -> mixture.schemes().stream())
            .distinct();
    return (told.isEmpty() ? handedDown : told.stream())
        .filter(
            scheme ->
                material().filter(made -> made.hybridId().equals(scheme.hybridId())).isPresent())
        .toList();
  }

  /** Movements of seed into or out of this one that were corrected or withdrawn since. */
  public Stream<Edge> supersededEdges() {
    return entries.stream()
        .filter(entry -> entry.superseded().isPresent())
        .flatMap(entry -> Edges.of(entry.fact()).stream())
        .filter(edge -> edge.child().equals(subject) || edge.parent().equals(subject));
  }

  /**
   * What lots that are this one's seed failed, as they tell, and lots made of those. What went
   * round in a circle of wrong facts is left out, so that it dies out.
   */
  public List<InheritedFinding> failuresOfParts() {
    List<Report.FromPart> told = reportsOf(Report.FromPart.class).toList();
    if (told.isEmpty()) {
      return List.of(); // as of nearly every lot, and each gate asks
    }
    Set<Subject> parts =
        Stream.concat(edgesOut.stream(), supersededEdges())
            .map(Edge::child)
            .collect(Collectors.toSet());
    return told.stream()
        .filter(report -> parts.contains(report.part()))
        .flatMap(report -> report.failures().stream())
        .filter(failure -> !failure.path().contains(subject))
        .toList();
  }

  /** Foreign pollen near this crop, nearest first. */
  public List<Report.Neighbour> neighbours() {
    Set<Subject> seen = new HashSet<>();
    return neighbourReports().stream().filter(near -> seen.add(near.source())).toList();
  }

  /**
   * All that is reported of foreign pollen, nearest first. One source stands in it more than once
   * where reports of it are not settled.
   */
  public List<Report.Neighbour> neighbourReports() {
    return reportsOf(Report.FromGround.class)
        .flatMap(report -> report.neighbours().stream())
        .sorted(
            Comparator.comparingDouble(Report.Neighbour::distanceM)
                .thenComparing(Report.Neighbour::source)
                .thenComparing(Report.Neighbour::factId))
        .filter(distinctReports())
        .toList();
  }

  /** Rye of earlier years on the ground of this crop, the latest first. */
  public List<Report.EarlierRye> earlierRye() {
    return reportsOf(Report.FromGround.class)
        .flatMap(report -> report.earlier().stream())
        .distinct()
        .sorted(
            Comparator.comparingInt(Report.EarlierRye::cropYear)
                .reversed()
                .thenComparing(Report.EarlierRye::rye)
                .thenComparing(Report.EarlierRye::factId))
        .toList();
  }

  /** Other seed crops that are said to stand on ground of this one in its year. */
  public List<Report.OnSameGround> onSameGround() {
    return reportsOf(Report.FromGround.class)
        .flatMap(report -> report.sameGround().stream())
        .distinct()
        .sorted(
            Comparator.comparing(Report.OnSameGround::crop)
                .thenComparing(Report.OnSameGround::factId))
        .toList();
  }

  /** What a laboratory or sampler is accredited for, as it told. */
  List<Report.Accredited> accreditationsOf(Subject laboratory) {
    return reportsOf(Report.FromLaboratory.class)
        .filter(report -> report.laboratory().equals(laboratory))
        .flatMap(report -> report.accreditations().stream())
        .toList();
  }

  /** Edges by which seed came into this subject. */
  public List<Edge> edgesIn() {
    return edgesIn;
  }

  /** Edges by which seed left this subject. */
  public List<Edge> edgesOut() {
    return edgesOut;
  }

  /**
   * Masses put into and taken out of this lot. Of several corrections of one fact the one recorded
   * last is taken, and of several declarations the latest, so that none is counted twice.
   */
  public List<MassFlow> massFlows() {
    if (massFlows == null) {
      massFlows = countedOnce();
    }
    return massFlows;
  }

  private List<MassFlow> countedOnce() {
    Set<String> overruled = overruledCorrections();
    List<SpecificRecord> valid =
        counting().filter(fact -> !overruled.contains(FactType.idOf(fact))).toList();
    Optional<SpecificRecord> declared =
        valid.stream().filter(LotDeclared.class::isInstance).reduce((earlier, later) -> later);
    return valid.stream()
        .filter(fact -> !(fact instanceof LotDeclared lot) || declared.get().equals(lot))
        .flatMap(fact -> MassFlow.of(fact).stream())
        .filter(flow -> Subject.lot(flow.lotId()).equals(subject))
        .toList();
  }

  /** Mass that came into this lot, or went out of it, kilograms. */
  public double totalKg(MassFlow.Direction direction) {
    return massFlows().stream()
        .filter(flow -> flow.direction() == direction)
        .mapToDouble(MassFlow::massKg)
        .sum();
  }

  private Set<String> overruledCorrections() {
    Map<String, FactHeader> last = new HashMap<>();
    Set<String> overruled = new HashSet<>();
    counting()
        .map(FactType::headerOf)
        .filter(header -> header.getCorrection() != null)
        .sorted(
            Comparator.comparing(FactHeader::getRecordedAt).thenComparing(FactHeader::getFactId))
        .forEach(
            header -> {
              FactHeader earlier = last.put(header.getCorrection().getSupersedes(), header);
              if (earlier != null) {
                overruled.add(earlier.getFactId());
              }
            });
    return overruled;
  }

  /**
   * What this crop or lot is, in the category that it was put into last; empty while its origin is
   * not known.
   */
  public Optional<Material> material() {
    return material;
  }

  /** What it would be had no person put it into a lower category. */
  public Optional<Material> materialAsMade() {
    return materialAsMade;
  }

  private Category lowest(Category made) {
    return facts(Downgrade.class).stream()
        .map(Downgrade::getToCategory)
        .reduce(made, CategoryRank::lower);
  }

  /** This dossier with some of its facts only, and all that others reported. */
  public Dossier of(Predicate<Entry> kept) {
    return new Dossier(subject, entries.stream().filter(kept).toList(), reports);
  }

  /**
   * Ids of post-control results of this lot and of those that it was conditioned, split or merged
   * from: they are the same harvest. Of merged lots each must have been in post-control, and none
   * speaks for seed that came in besides, from a field or from elsewhere. A marker test of a
   * laboratory that is not declared is none.
   */
  public List<String> postControls() {
    return Stream.concat(
            facts(PostControlResult.class).stream()
                .filter(result -> LaboratoryResults.isDeclared(this, result))
                .map(FactType::idOf),
            postControlsOfSameHarvest().stream())
        .distinct()
        .sorted()
        .limit(MOST_POST_CONTROLS)
        .toList();
  }

  private List<String> postControlsOfSameHarvest() {
    boolean isOther =
        declaredLot().isPresent() || edgesIn.stream().anyMatch(edge -> !edge.by().keepsHarvest());
    if (isOther) {
      return List.of();
    }
    List<List<String>> ofEach =
        edgesIn.stream()
            .map(Edge::parent)
            .distinct()
            .map(parent -> parent(parent).map(Report.FromParent::postControls).orElse(List.of()))
            .toList();
    boolean each = ofEach.stream().noneMatch(List::isEmpty);
    return each ? ofEach.stream().flatMap(List::stream).distinct().sorted().toList() : List.of();
  }

  /**
   * How much of this lot is open-pollinated rye that was added to it, or to lots that it was made
   * of.
   */
  public double openPollinatedPercent() {
    if (subject.kind() != Subject.Kind.LOT) {
      return 0;
    }
    Map<String, Set<String>> added = new HashMap<>();
    facts(Admixture.class)
        .forEach(
            admixture ->
                added.put(
                    FactType.idOf(admixture),
                    admixture.getOpenPollinatedLots().stream()
                        .map(LotMass::getLotId)
                        .collect(Collectors.toSet())));
    double allKg = edgesIn.stream().mapToDouble(Edge::massKg).sum();
    double percentKg =
        edgesIn.stream()
            .mapToDouble(
                edge ->
                    edge.massKg()
                        * (added.getOrDefault(edge.factId(), Set.of()).contains(edge.parent().id())
                            ? 100
                            : parent(edge.parent())
                                .flatMap(Report.FromParent::openPollinatedPercent)
                                .orElse(0.0)))
            .sum();
    return allKg > 0 ? percentKg / allKg : 0;
  }

  /** Enterprise that grows the crop, or that grew or declared the lot; empty where nothing says. */
  public Optional<String> holder() {
    return crop()
        .map(FieldCropDeclared::getEnterpriseId)
        .or(() -> declaredLot().map(LotDeclared::getEnterpriseId))
        .or(
            () ->
                believedParents()
                    .flatMap(parent -> parent.holder().stream())
                    .min(Comparator.naturalOrder()));
  }

  /**
   * What this crop is in the scheme, or the crop that this seed was harvested from, here or before
   * it was bought in; empty where that is not known, or there were several.
   */
  public Optional<CropRole> cropRole() {
    return crop()
        .map(FieldCropDeclared::getRole)
        .or(this::roleOfDeclaredLot)
        .or(this::roleOfHarvestedCrop);
  }

  private Optional<CropRole> roleOfDeclaredLot() {
    return declaredLot()
        .flatMap(lot -> scheme().map(scheme -> scheme.components().get(lot.getComponentId())))
        .map(
            kind ->
                switch (kind) {
                  case STERILE_LINE, STERILE_SINGLE_CROSS -> CropRole.STERILE_FEMALE;
                  case MAINTAINER_LINE -> CropRole.MAINTAINER;
                  case FERTILE_LINE -> CropRole.FERTILE_LINE;
                  case RESTORER_POLLINATOR -> CropRole.POLLINATOR;
                });
  }

  private Optional<CropRole> roleOfHarvestedCrop() {
    Set<Subject> sameSeed =
        edgesIn.stream()
            .filter(edge -> edge.by() == FactType.HARVEST || edge.by().keepsHarvest())
            .map(Edge::parent)
            .collect(Collectors.toSet());
    Set<CropRole> roles =
        believedParents()
            .filter(parent -> sameSeed.contains(parent.parent()))
            .flatMap(parent -> parent.cropRole().stream())
            .collect(Collectors.toSet());
    return roles.size() == 1 ? roles.stream().findFirst() : Optional.empty();
  }

  /** The crop's own declaration. */
  public Optional<FieldCropDeclared> crop() {
    return latest(FieldCropDeclared.class);
  }

  /** What the lot is by its own declaration, whatever its history says. */
  public Optional<Material> declaredMaterial() {
    return declaredLot().map(MaterialOf::declared);
  }

  /** The days on which this crop flowers, as declared and as seen. */
  public FloweringWindow flowering() {
    if (flowering == null) {
      flowering =
          crop()
              .map(
                  declared ->
                      FloweringWindow.flowering(declared)
                          .with(
                              counting()
                                  .filter(FloweringWindow::isSeenBy)
                                  .map(FactType::dayOf)
                                  .toList()))
              .orElseGet(FloweringWindow::unknown);
    }
    return flowering;
  }

  /** The lot's own declaration, where it entered with no history here. */
  public Optional<LotDeclared> declaredLot() {
    return latest(LotDeclared.class);
  }

  /** Whether seed came in straight from the field and has not been conditioned. */
  public boolean isRawHarvest() {
    List<Edge> in = edgesIn();
    return !in.isEmpty() && in.stream().allMatch(edge -> edge.by() == FactType.HARVEST);
  }

  /** The day whose text of a rulebook governs: midsummer of the year of harvest. */
  public Optional<LocalDate> judgedOn() {
    return material().map(material -> LocalDate.of(material.cropYear(), 7, 1));
  }

  private <T extends Report> Stream<T> reportsOf(Class<T> type) {
    return reports.stream().filter(type::isInstance).map(type::cast);
  }

  /** A source near several cells of a crop is reported by each. */
  private static Predicate<Report.Neighbour> distinctReports() {
    Set<List<?>> seen = new HashSet<>();
    return near -> seen.add(List.of(near.source(), near.factId()));
  }
}
