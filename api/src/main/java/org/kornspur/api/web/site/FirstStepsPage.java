package org.kornspur.api.web.site;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.kornspur.api.query.SetUpProgress;
import org.kornspur.api.query.SetUpProgress.Step;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.contract.FactType;

/** Leads through what a new site needs first. Nothing here must be done, or in this order. */
@Path("/first-steps")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class FirstStepsPage {
  @Inject PageFrames pages;
  @Inject SetUpProgress progress;

  /**
   * A step as it is shown.
   *
   * @param there how much is there, in a sentence
   * @param forms that do it
   */
  public record Shown(SetUpProgress.Progress progress, String there, List<Form> forms) {}

  /** A form that leads on. */
  public record Form(String href, String label) {}

  @CheckedTemplate(basePath = "web/site")
  static class Templates {
    static native TemplateInstance steps(PageFrame page, List<Shown> steps);
  }

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.SET_UP)
  public String steps() {
    return pages.render(
        Templates.steps(
            pages.around(NavigationItem.FIRST_STEPS),
            progress.steps().stream().map(this::shown).toList()));
  }

  private Shown shown(SetUpProgress.Progress one) {
    return new Shown(
        one,
        pages
            .words()
            .texts("site")
            .of(
                String.join(".", "there", one.step().name()),
                pages.words().form().count(one.count())),
        one.isOwn() ? forms(one.step()) : List.of());
  }

  private List<Form> forms(Step step) {
    return switch (step) {
      case ENTERPRISE -> List.of(form(FactType.ENTERPRISE_DECLARED));
      case PEOPLE ->
          List.of(
              new Form("/people/new", pages.words().texts("people").of("add")),
              new Form("/people", pages.words().texts("frame").of("place", NavigationItem.PEOPLE)));
      case HYBRIDS -> List.of(form(FactType.HYBRID_DECLARED));
      case FIELDS -> List.of(form(FactType.FIELD_CROP_DECLARED));
      case SEASON -> List.of(form(FactType.LOT_DECLARED), form(FactType.SOWING));
    };
  }

  private Form form(FactType type) {
    return new Form(Addresses.form(type), pages.words().terms().fact(type));
  }
}
