package org.kornspur.api.web.audit;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.nio.charset.StandardCharsets;
import java.security.PublicKey;
import java.util.Optional;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.MultipartForm;
import org.kornspur.api.security.login.MultipartForm.SentFile;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.chain.UnreadableChain;
import org.kornspur.ingest.proof.Proof;
import org.kornspur.ingest.proof.ProofJson;
import org.kornspur.ingest.seal.TrustedKeys;

/** Where a person gives a proof file and reads what it proves, what not, and by which key. */
@Path(ProofPage.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class ProofPage {
  static final String ROOT = AuditPage.ROOT + "/proof";

  @Inject PageFrames pages;
  @Inject SiteKeys keys;

  @CheckedTemplate(basePath = "web/audit")
  static class Templates {
    static native TemplateInstance proof(PageFrame page, Optional<ProofView> proof, String refused);
  }

  @GET
  @RequiresPermission(Permission.AUDIT)
  public String ask() {
    return page(Optional.empty(), "");
  }

  /** Nothing of what is sent is kept. */
  @POST
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  @RequiresPermission(Permission.AUDIT)
  @HeavyDocument
  public Response verify(@Context HttpHeaders headers, byte[] body) {
    MultipartForm form = MultipartForm.of(headers.getMediaType(), body);
    Optional<SentFile> file = form.file("file").filter(given -> given.content().length > 0);
    if (file.isEmpty()) {
      return refused("noProof");
    }
    Optional<SentFile> keyFile = form.file("key").filter(given -> given.content().length > 0);
    Optional<PublicKey> key = keyFile.flatMap(ProofPage::key);
    if (keyFile.isPresent() && key.isEmpty()) {
      return refused("noKey");
    }
    TrustedKeys trusted = key.map(TrustedKeys::of).orElseGet(keys::trusted);
    try {
      Proof proof = ProofJson.read(file.get().content());
      return Response.ok(
              page(
                  Optional.of(
                      ProofView.of(
                          file.get().name(), proof, trusted, key.isPresent(), pages.words())),
                  ""))
          .build();
    } catch (UnreadableChain noProof) {
      return refused("unreadable");
    }
  }

  private static Optional<PublicKey> key(SentFile file) {
    return TrustedKeys.ifOne(new String(file.content(), StandardCharsets.UTF_8));
  }

  private Response refused(String why) {
    return Response.status(Response.Status.BAD_REQUEST).entity(page(Optional.empty(), why)).build();
  }

  private String page(Optional<ProofView> proof, String refused) {
    return pages.render(Templates.proof(pages.around(NavigationItem.AUDIT), proof, refused));
  }
}
