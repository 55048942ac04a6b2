package org.kornspur.api.web.site;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.query.view.RulebookView;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.Language;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;

/** By what this site judges, whose signatures count here, and where and in what language it is. */
@Path("/site")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class SitePage {
  @Inject PageFrames pages;
  @Inject RulesInForce rules;
  @Inject SiteKeys keys;
  @Inject CurrentCaller caller;

  /**
   * A rulebook in force.
   *
   * @param title with its edition
   * @param isOfSite whether the site brought it itself
   * @param href its limits in the manual
   */
  public record Book(RulebookView.Summary book, String title, boolean isOfSite, String href) {}

  /** A key whose signatures count. */
  public record Key(String id, String pem, boolean signsHere) {}

  /**
   * What the page shows.
   *
   * @param rules check value of all rules in force
   * @param areRefused whether rulebooks in the folder are refused as they are now
   * @param language its own name
   * @param mayTakeFirstSteps whether who asks is led through them
   */
  public record Site(
      List<Book> books,
      String rules,
      boolean areRefused,
      List<Key> keys,
      String zone,
      String language,
      boolean mayTakeFirstSteps) {}

  @CheckedTemplate(basePath = "web/site")
  static class Templates {
    static native TemplateInstance site(PageFrame page, Site site);
  }

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_SITE)
  public String site() {
    String signsHere = keys.signing().keyId();
    return pages.render(
        Templates.site(
            pages.around(NavigationItem.SITE),
            new Site(
                books(),
                rules.judge().rules().toString(),
                rules.areRefused(),
                keys.trusted().publicKeys().stream()
                    .map(
                        key ->
                            new Key(
                                TrustedKeys.keyId(key),
                                TrustedKeys.pem(key),
                                TrustedKeys.keyId(key).equals(signsHere)))
                    .toList(),
                pages.words().form().zone().getId(),
                Language.ofSite().ownName(),
                caller.get().may(Permission.SET_UP))));
  }

  private List<Book> books() {
    List<String> bundled = Rulebooks.bundled().all().stream().map(Rulebook::id).toList();
    return rules.rulebooks().all().stream()
        .map(
            book ->
                new Book(
                    RulebookView.Summary.of(book, pages.words().words()),
                    pages.words().words().rulebook(book),
                    !bundled.contains(book.id()),
                    "/help/rules?book=" + Addresses.part(book.id())))
        .toList();
  }
}
