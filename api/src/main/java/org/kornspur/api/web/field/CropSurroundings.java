package org.kornspur.api.web.field;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.gates.IsolationSources;
import org.kornspur.processors.ground.FloweringOverlap;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.standards.Limit;

/**
 * A declared crop with the foreign pollen around it, each source under a letter by which all
 * drawings and tables of the page call it.
 *
 * @param declared the declaration of the crop
 * @param flowering the days on which it flowers, as declared and as seen
 * @param outline its outline; empty where it cannot be drawn
 * @param required the distance that is usually asked for, metres; empty where the rulebook asks for
 *     none
 * @param sources nearest first
 */
public record CropSurroundings(
    FieldCropDeclared declared,
    FloweringWindow flowering,
    Optional<Outline> outline,
    Optional<Limit> required,
    List<Source> sources) {

  /**
   * A source of foreign pollen.
   *
   * @param letter by which it is called on this page
   * @param outline empty where it cannot be drawn
   * @param meeting whether and when it flowers with the crop
   * @param asked what the rulebook asks of it; empty where it asks for nothing
   * @param told whether more is told of it than distance and nearest point, as one sees them from
   *     the road
   */
  public record Source(
      String letter,
      Neighbour neighbour,
      Optional<Outline> outline,
      FloweringOverlap meeting,
      Optional<IsolationSources.Source> asked,
      boolean told) {

    public boolean counts() {
      return meeting.counts() || asked.isPresent();
    }

    public boolean tooNear() {
      return asked.filter(IsolationSources.Source::isTooNear).isPresent();
    }

    /** Days on which it sheds pollen. */
    public FloweringWindow sheds() {
      return FloweringWindow.known(neighbour.sheddingFrom(), neighbour.sheddingTo());
    }
  }

  static Optional<CropSurroundings> of(
      Dossier crop,
      Optional<IsolationSources> asked,
      Function<Subject, Dossier> dossiers,
      Predicate<Neighbour> isTold) {
    return crop.crop()
        .map(
            declared -> {
              Map<Subject, IsolationSources.Source> surest =
                  asked.map(IsolationSources::surestOfEach).orElse(Map.of());
              List<Source> sources = new ArrayList<>();
              for (Neighbour neighbour : crop.neighbours()) {
                boolean told = isTold.test(neighbour);
                sources.add(
                    new Source(
                        letter(sources.size()),
                        neighbour,
                        told ? outline(dossiers.apply(neighbour.source())) : Optional.empty(),
                        neighbour.flowersWith(crop.flowering()),
                        Optional.ofNullable(surest.get(neighbour.source())),
                        told));
              }
              return new CropSurroundings(
                  declared,
                  crop.flowering(),
                  drawable(declared.getOutline()),
                  asked.map(IsolationSources::usual).filter(limit -> limit.value() > 0),
                  List.copyOf(sources));
            });
  }

  private static String letter(int index) {
    String letter = Character.toString('A' + index % 26);
    return index < 26 ? letter : letter + (index / 26);
  }

  private static Optional<Outline> outline(Dossier source) {
    return source
        .crop()
        .map(FieldCropDeclared::getOutline)
        .or(() -> source.latest(PollenSourceSeen.class).map(PollenSourceSeen::getOutline))
        .flatMap(CropSurroundings::drawable);
  }

  private static Optional<Outline> drawable(List<GeoPoint> corners) {
    try {
      return Optional.of(Outline.of(corners));
    } catch (InvalidOutline spoilt) {
      // a correction may have spoilt what was placed before
      return Optional.empty();
    }
  }
}
