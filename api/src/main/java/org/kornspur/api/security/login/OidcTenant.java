package org.kornspur.api.security.login;

import io.quarkus.oidc.OidcRequestContext;
import io.quarkus.oidc.OidcTenantConfig;
import io.quarkus.oidc.TenantConfigResolver;
import io.quarkus.oidc.runtime.OidcTenantConfig.ApplicationType;
import io.smallrye.mutiny.Uni;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import org.kornspur.api.security.AccessSettings;

/** Tells the OpenID Connect client of the issuer that the settings name. */
@ApplicationScoped
public class OidcTenant implements TenantConfigResolver {
  private static final String ID = "kornspur";

  @Inject AccessSettings settings;

  @Override
  public Uni<OidcTenantConfig> resolve(
      RoutingContext context, OidcRequestContext<OidcTenantConfig> request) {
    return settings.access() == AccessSettings.Means.OIDC
        ? Uni.createFrom().item(config())
        : Uni.createFrom().nullItem();
  }

  private OidcTenantConfig config() {
    AccessSettings.Oidc oidc = settings.oidc();
    return OidcTenantConfig.authServerUrl(issuer(settings))
        .tenantId(ID)
        .clientId(oidc.clientId())
        .applicationType(ApplicationType.SERVICE)
        .token()
        .audience(List.of(oidc.audience().orElse(oidc.clientId())))
        // a token stands or falls by its signature; the issuer is not asked about every bad one
        .allowJwtIntrospection(false)
        .allowOpaqueTokenIntrospection(false)
        .end()
        .roles()
        .roleClaimPath(oidc.rolesClaim())
        .end()
        .build();
  }

  /**
   * Address of the issuer.
   *
   * @throws IllegalArgumentException if it is not set
   */
  static String issuer(AccessSettings settings) {
    return settings
        .oidc()
        .issuer()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "kornspur.access is oidc and kornspur.oidc.issuer is absent. Give the address"
                        + " of the issuer, as it stands in the iss claim of its tokens."));
  }
}
