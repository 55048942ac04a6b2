package org.kornspur.api.security;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;

/** Settings under {@code kornspur.} that say who gets in. */
@ConfigMapping(prefix = "kornspur")
public interface AccessSettings {

  /** Where people are known. */
  enum Means {
    /** In a file of this machine, with hashed passwords. */
    PEOPLE,
    /** With an issuer of OpenID Connect, whose signed tokens they bring. */
    OIDC
  }

  @WithDefault("people")
  Means access();

  /** Folder that keys are kept in where no people file is named. */
  @WithDefault("kornspur-data")
  Path dataFolder();

  /** File of the people; {@code people.json} in the data folder where it is not named. */
  Optional<Path> peopleFile();

  /**
   * Whether a site that has no people yet gets those of the demo, whom the page for the log-in then
   * names.
   */
  @WithDefault("false")
  boolean demo();

  /** Whether nobody may both manage the people and decide on seed. */
  @WithDefault("false")
  boolean separateDuties();

  /** How long a log-in lasts. */
  @WithDefault("8H")
  Duration sessionLength();

  /** How old a log-in with the issuer may be when its token is used to sign. */
  @WithDefault("5M")
  Duration signingWindow();

  /** Most requests of one person in a minute. */
  @WithDefault("6000")
  int requestsPerMinute();

  /** Most requests from one address in a minute that nobody logged in for. */
  @WithDefault("300")
  int anonymousRequestsPerMinute();

  /** Most connections of one address at a time; trusted proxies may have more. */
  @WithDefault("250")
  int connectionsPerAddress();

  /** The issuer of tokens. */
  Oidc oidc();

  /** The issuer of tokens, and what their claims are called. */
  interface Oidc {

    /** Address of the issuer, as in the {@code iss} claim. */
    Optional<String> issuer();

    /** Id of this program with the issuer. */
    @WithDefault("kornspur")
    String clientId();

    /** What {@code aud} must hold; the client id where it is not given. */
    Optional<String> audience();

    /** Claim with the person id as facts name it. */
    @WithDefault("preferred_username")
    String personClaim();

    /** Claim with the name as it is printed. */
    @WithDefault("name")
    String nameClaim();

    /** Claim with the roles; a slash leads into an object, as in {@code realm_access/roles}. */
    @WithDefault("roles")
    String rolesClaim();

    /** Claim with the id of the enterprise that the person works for. */
    @WithDefault("enterprise")
    String enterpriseClaim();
  }
}
