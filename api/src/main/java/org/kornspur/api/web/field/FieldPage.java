package org.kornspur.api.web.field;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.NeighboursView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.SubjectPageAssembler;
import org.kornspur.api.web.SubjectPageView;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.InspectionAdvice;
import org.kornspur.processors.advice.InspectionAdvice.Terms;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.gates.IsolationSources;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.stream.IsolationJoin;

/** One seed crop: what the page of a lot shows, and its field with the ground around it. */
@Path("/crops/{id}")
public class FieldPage {

  /** The risks of the plans that are drawn: 5 % each, against twice the limit. */
  private static final Terms TERMS = new Terms(0.05, 0.05, 2);

  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject VisibleData data;
  @Inject ProcessorsClient processors;
  @Inject SubjectPageAssembler pageContents;
  @Inject RulesInForce rules;

  /**
   * What the page shows.
   *
   * @param terms risks of the acceptance curves
   * @param reachM how far the ground is looked at, metres
   */
  public record FieldView(
      Optional<CropSurroundings> ground,
      Optional<Double> areaHa,
      Optional<FieldMap> map,
      Optional<FloweringChart> flowering,
      List<VisitView> visits,
      List<AcceptanceCurve> curves,
      Terms terms,
      double reachM) {}

  @CheckedTemplate(basePath = "web/field")
  static class Templates {
    static native TemplateInstance field(
        PageFrame page, SubjectPageView content, FieldView view, FieldWords words);
  }

  @GET
  @RequiresPermission(Permission.READ_CROPS)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public String show(@PathParam("id") String id) {
    Subject crop = Subject.crop(id);
    StandingView standing = queries.view(crop);
    Dossier dossier = data.dossier(crop);
    Optional<Rulebook> rulebook = rulebook(dossier);
    Function<Subject, Dossier> dossiers =
        source -> new Dossier(source, processors.entries(source), List.of());
    Optional<CropSurroundings> ground =
        CropSurroundings.of(
            dossier,
            rulebook.flatMap(book -> IsolationSources.of(dossier, book)),
            dossiers,
            near -> NeighboursView.isTold(near, data.visibility()));
    FieldView view =
        new FieldView(
            ground,
            ground.flatMap(CropSurroundings::outline).map(Area::hectares),
            ground.flatMap(FieldMap::of),
            ground.flatMap(FloweringChart::of),
            VisitView.of(dossier),
            curves(dossier, rulebook),
            TERMS,
            IsolationJoin.REACH_M);
    FieldWords words = new FieldWords(pages.words().texts("field"), pages.words().words());
    return pages.render(
        Templates.field(
            pages.around(NavigationItem.CROPS, standing.asOf()),
            pageContents.of(crop, standing),
            view,
            words));
  }

  private Optional<Rulebook> rulebook(Dossier crop) {
    return crop.crop()
        .map(FieldCropDeclared::getRulebookId)
        .flatMap(id -> rules.rulebooks().find(id));
  }

  private static List<AcceptanceCurve> curves(Dossier crop, Optional<Rulebook> rulebook) {
    return rulebook
        .flatMap(book -> advice(crop, book))
        .map(
            advice ->
                advice.counts().stream().flatMap(c -> AcceptanceCurve.of(c).stream()).toList())
        .orElse(List.of());
  }

  /** Without curves where the counts make none: the standing beside them says what is wrong. */
  private static Optional<InspectionAdvice> advice(Dossier crop, Rulebook rulebook) {
    try {
      return InspectionAdvice.of(crop, rulebook, TERMS);
    } catch (IllegalArgumentException noPlan) {
      return Optional.empty();
    }
  }
}
