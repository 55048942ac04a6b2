package org.kornspur.processors.dossier;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import org.kornspur.contract.ComponentKind;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.ShareBasis;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.verdict.Verdict;

/** What one subject tells another: the only way in which dossiers learn of each other. */
public sealed interface Report {

  /** Who tells: a subject in text form, or an isolation cell. */
  String sender();

  /** Who is told. */
  Subject receiver();

  /**
   * A parent to its child, or a hybrid's master data to what is made of it.
   *
   * @param material what the parent is, where known
   * @param measures what a blend needs to know of it
   * @param troubles what the child inherits, each with the path to the parent
   * @param ancestors the parent's ancestors and how many steps above it each stands
   * @param stepsHandedDown steps down which the parent itself was told what it is, who holds it and
   *     what was measured of it, as {@link Dossier#stepsHandedDown()} has it
   * @param seedVerdicts verdicts on the parent's seed, which a part split from it may rest on
   * @param postControls ids of post-control results of the parent's harvest
   * @param holder enterprise that grew it or declared it, where known
   * @param cropRole what the parent is in the scheme where it is a crop, or the crop that it was
   *     harvested from, as far as known; empty in reports of earlier releases too
   * @param openPollinatedPercent how much of it is open-pollinated rye that was added; empty where
   *     none was, and in reports of earlier releases
   * @param mixture what is known of a technical mixture, to lots made of it; empty for other seed
   *     and in reports of earlier releases
   * @param heldKg kilograms that a lot ever held; empty for a crop, for a raw harvest and in
   *     reports of earlier releases
   * @param gained how much more a lot and what it came from weigh than what went into them; empty
   *     where they weigh no more, and in reports of earlier releases
   */
  record FromParent(
      Subject parent,
      Subject receiver,
      Optional<Material> material,
      SeedMeasures measures,
      List<InheritedFinding> troubles,
      SortedMap<String, Integer> ancestors,
      int stepsHandedDown,
      List<Verdict> seedVerdicts,
      List<String> postControls,
      Optional<String> holder,
      Optional<CropRole> cropRole,
      Optional<Double> openPollinatedPercent,
      Optional<Mixture> mixture,
      Optional<Double> heldKg,
      Optional<Gained> gained)
      implements Report {
    public FromParent {
      // as earlier versions kept it
      cropRole = cropRole == null ? Optional.empty() : cropRole;
      openPollinatedPercent =
          openPollinatedPercent == null ? Optional.empty() : openPollinatedPercent;
      mixture = mixture == null ? Optional.empty() : mixture;
      heldKg = heldKg == null ? Optional.empty() : heldKg;
      gained = gained == null ? Optional.empty() : gained;
    }

    @Override
    public String sender() {
      return parent.toString();
    }

    /** Whether the receiver is among its own ancestors by way of this parent. */
    public boolean closesCircle() {
      return parent.equals(receiver) || ancestors.containsKey(receiver.toString());
    }
  }

  /**
   * What seed weighs more than what went in, over all movements since it came from the field or
   * from elsewhere, percent of its mass.
   *
   * @param weighedPercent what nothing explains but the tolerance of scales
   * @param dressedPercent what treatments explain
   */
  record Gained(double weighedPercent, double dressedPercent) {}

  /**
   * A technical mixture, for lots that no fact names together with its hybrid.
   *
   * @param schemes what the hybrid says, as {@link FromHybrid} has it
   * @param pollinatorShares share of pollinator from 0 to 1 on each basis on which what was mixed
   *     settles it
   */
  record Mixture(List<Scheme> schemes, SortedMap<ShareBasis, Double> pollinatorShares) {}

  /**
   * A part to the lot that it was split off: what it failed, or is beyond a limit and not settled,
   * is of the seed of that lot too.
   *
   * @param failures each with the path from the part that failed up to the one that tells
   */
  record FromPart(Subject part, Subject receiver, List<InheritedFinding> failures)
      implements Report {
    @Override
    public String sender() {
      return part.toString();
    }
  }

  /**
   * The hybrid's master data.
   *
   * @param schemes what its facts say; more than one where they contradict each other
   */
  record FromHybrid(Subject hybrid, Subject receiver, List<Scheme> schemes) implements Report {
    @Override
    public String sender() {
      return hybrid.toString();
    }
  }

  /**
   * An isolation cell to a crop: foreign pollen found within the widest distance that any rulebook
   * asks for, rye of earlier years on the crop's own ground, and other seed crops that are said to
   * stand on it in the same year.
   *
   * @param earlier rye of earlier years; none in reports of earlier releases
   * @param sameGround other crops of the year; none in reports of earlier releases
   */
  record FromGround(
      String cell,
      Subject receiver,
      List<Neighbour> neighbours,
      List<EarlierRye> earlier,
      List<OnSameGround> sameGround)
      implements Report {
    public FromGround {
      earlier = earlier == null ? List.of() : earlier; // as earlier versions kept it
      sameGround = sameGround == null ? List.of() : sameGround;
    }

    @Override
    public String sender() {
      return cell;
    }
  }

  /**
   * A lot to a laboratory of which it holds results: it is to be told what that is declared for.
   */
  record AsksLaboratory(Subject asking, Subject receiver) implements Report {
    @Override
    public String sender() {
      return asking.toString();
    }
  }

  /**
   * A laboratory to a lot of which it made tests.
   *
   * @param accreditations what its latest declaration says; none where nobody declared it
   */
  record FromLaboratory(Subject laboratory, Subject receiver, List<Accredited> accreditations)
      implements Report {
    @Override
    public String sender() {
      return laboratory.toString();
    }
  }

  /** A kind of test that a laboratory is accredited for, from day to day, both included. */
  record Accredited(TestKind test, LocalDate from, LocalDate to) {
    boolean holdsOn(LocalDate day) {
      return !day.isBefore(from) && !day.isAfter(to);
    }
  }

  /**
   * The crossing scheme and the breeder's ratio.
   *
   * @param statedOn day on which the breeder stated it; empty in reports of earlier releases
   */
  record Scheme(
      String hybridId,
      SortedMap<String, ComponentKind> components,
      List<Crossing> crossings,
      double pollinatorSharePercent,
      ShareBasis shareBasis,
      double tolerancePercentPoints,
      String factId,
      Optional<LocalDate> statedOn) {
    public Scheme {
      statedOn = statedOn == null ? Optional.empty() : statedOn; // as earlier versions kept it
    }
  }

  /** Seed parent, pollen parent and what they give. */
  record Crossing(String seedId, String femaleId, String pollenId) {}

  /**
   * Rye that stood on a crop's ground in an earlier year.
   *
   * @param rye the earlier crop, or the source that somebody saw
   * @param cropYear year in which it was harvested
   * @param onCropHa hectares of the crop's outline that it covered
   * @param factId fact that tells of it
   * @param reportedBy enterprise of the grower who alone says so; empty where it counts for
   *     everybody
   */
  record EarlierRye(
      Subject rye, int cropYear, double onCropHa, String factId, Optional<String> reportedBy) {}

  /**
   * Another seed crop of the same year whose outline covers ground of a crop.
   *
   * @param commonHa hectares that both cover
   * @param areaHa area of the other crop, hectares
   * @param factId fact that declares it
   */
  record OnSameGround(Subject crop, double commonHa, double areaHa, String factId) {}

  /**
   * Foreign pollen near a crop.
   *
   * @param source the other crop, or a source that somebody saw
   * @param distanceM metres between the nearest points of the outlines; 0 where they touch or
   *     overlap
   * @param areaHa area of the source, hectares
   * @param onCrop nearest point of the crop
   * @param onSource nearest point of the source
   * @param sourceKind kind of a seen source; empty for a crop of ours
   * @param sheddingFrom first day on which it can shed, as far as known
   * @param sheddingTo last day, as far as known
   * @param factId fact that tells of it
   * @param reportedBy enterprise of the grower who alone says so; empty where it counts for
   *     everybody
   * @param sameComponent whether it is by name the pollen that is wanted, and was found not to be
   *     it
   */
  record Neighbour(
      Subject source,
      double distanceM,
      double areaHa,
      GeoPosition onCrop,
      GeoPosition onSource,
      Optional<PollenSourceKind> sourceKind,
      Optional<LocalDate> sheddingFrom,
      Optional<LocalDate> sheddingTo,
      String factId,
      Optional<String> reportedBy,
      Optional<Boolean> sameComponent) {

    /** Whether, and on which days, this source and a crop flower together. */
    public FloweringOverlap flowersWith(FloweringWindow crop) {
      return FloweringOverlap.between(crop, FloweringWindow.known(sheddingFrom, sheddingTo));
    }
  }
}
