package org.kornspur.api.security.visibility;

import jakarta.enterprise.context.RequestScoped;
import java.util.Optional;
import org.kornspur.api.security.limit.RecentClaims;
import org.kornspur.ingest.contract.Subject;

/**
 * Whether this request is only a preview. Then a lot or crop that a previewed fact would make
 * counts as the caller's for the facts behind it in the same preview, and for nothing else.
 */
@RequestScoped
public class PreviewClaims {
  private static final int MOST = 400_000;

  private Optional<RecentClaims<Subject>> claims = Optional.empty();

  /** From here on everything in this request is only a preview. */
  public void begin() {
    claims = Optional.of(new RecentClaims<>(MOST));
  }

  RecentClaims<Subject> claimsOr(RecentClaims<Subject> kept) {
    return claims.orElse(kept);
  }
}
