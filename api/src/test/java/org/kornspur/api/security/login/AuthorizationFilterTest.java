package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import io.smallrye.config.SmallRyeConfigBuilder;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Response;
import java.lang.reflect.InvocationHandler;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.security.AccessSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.TestPeople;

/** No address of the program lacks what it needs, so this one is made up. */
class AuthorizationFilterTest {
  private static final Caller WHO_MAY_ALL =
      new Caller(
          "everything",
          "Everything",
          EnumSet.allOf(Role.class),
          Optional.empty(),
          Caller.Proof.TOKEN,
          Optional.empty());

  /** Methods as of a resource. */
  static final class Resource {
    public void saysNothing() {}

    @RequiresPermission(Permission.READ_LOTS)
    public void says() {}

    @RequiresPermission(Permission.OWN_ACCOUNT)
    public void own() {}
  }

  @Test
  void aMethodThatSaysNothingOfWhatItNeedsIsRefusedToEverybody() throws Exception {
    CurrentCaller caller = new CurrentCaller();
    List<Response> refused = asked("saysNothing", caller);
    assertThat(refused).hasSize(1);
    assertThat(((ProblemDocument) refused.get(0).getEntity()).status()).isEqualTo(403);
    assertThat(caller.ifKnown()).isEmpty();
  }

  @Test
  void aMethodThatSaysItLetsInWhoMay() throws Exception {
    CurrentCaller caller = new CurrentCaller();
    assertThat(asked("says", caller)).isEmpty();
    assertThat(caller.ifKnown()).contains(WHO_MAY_ALL);
  }

  @Test
  void whoIsNotConfirmedIsRefusedWhereDutiesAreApart(@TempDir Path folder) throws Exception {
    TestPeople.writeInto(folder);
    People people =
        new People(
            new SmallRyeConfigBuilder()
                .addDiscoveredConverters()
                .withMapping(AccessSettings.class)
                .withDefaultValue("kornspur.data-folder", folder.toString())
                .withDefaultValue("kornspur.separate-duties", "true")
                .build()
                .getConfigMapping(AccessSettings.class),
            () -> "administrator");
    people.add("p-1", "Invented One", EnumSet.of(Role.QUALITY), Optional.empty());
    people.setPassword("p-1", "a password of my own");
    for (String person : List.of("p-1", TestPeople.of(Role.QUALITY))) {
      CurrentCaller caller = new CurrentCaller();
      Caller asker = people.get(person).caller(Caller.Proof.PASSWORD, Instant.now());
      List<Response> refused = asked("says", asker, people, caller);
      assertThat(refused).as(person).hasSize(person.equals("p-1") ? 1 : 0);
      assertThat(caller.ifKnown().isPresent()).as(person).isEqualTo(refused.isEmpty());
      assertThat(asked("own", asker, people, new CurrentCaller())).as(person).isEmpty();
    }
  }

  private static List<Response> asked(String method, CurrentCaller caller) throws Exception {
    return asked(method, WHO_MAY_ALL, null, caller);
  }

  private static List<Response> asked(
      String method, Caller asker, People people, CurrentCaller caller) throws Exception {
    List<Response> refused = new ArrayList<>();
    AuthorizationFilter filter = new AuthorizationFilter();
    filter.identity = CallerIdentity.of(asker);
    filter.people = people;
    filter.currentCaller = caller;
    filter.formTokens = new FormTokens(null);
    Method asked = Resource.class.getMethod(method);
    filter.resource = of(ResourceInfo.class, (proxy, call, arguments) -> asked);
    filter.filter(
        of(
            ContainerRequestContext.class,
            (proxy, call, arguments) -> refused.add((Response) arguments[0])));
    return refused;
  }

  private static <T> T of(Class<T> type, InvocationHandler answers) {
    return type.cast(Proxy.newProxyInstance(type.getClassLoader(), new Class<?>[] {type}, answers));
  }
}
