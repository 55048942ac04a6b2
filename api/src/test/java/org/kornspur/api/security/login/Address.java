package org.kornspur.api.security.login;

import com.tngtech.archunit.core.domain.JavaClass;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HEAD;
import jakarta.ws.rs.OPTIONS;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import java.lang.annotation.Annotation;
import java.lang.reflect.Method;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.architecture.MainClasses;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;

/**
 * An address of the interface as the compiled classes say it, so that a new one cannot be
 * forgotten.
 *
 * @param path with its parameters filled in by ids that nothing has
 * @param contentType what it takes; empty where it takes nothing
 * @param accept what it gives; empty where it says nothing
 * @param needs empty where the method names nothing
 */
record Address(
    String method,
    String path,
    Optional<String> contentType,
    Optional<String> accept,
    Optional<Permission> needs) {

  private static final Map<Class<? extends Annotation>, String> METHODS =
      Map.of(
          GET.class, "GET",
          POST.class, "POST",
          PUT.class, "PUT",
          DELETE.class, "DELETE",
          PATCH.class, "PATCH",
          HEAD.class, "HEAD",
          OPTIONS.class, "OPTIONS");

  static List<Address> all() {
    return MainClasses.ALL.stream()
        .filter(type -> type.isAnnotatedWith(Path.class))
        .map(JavaClass::reflect)
        .flatMap(Address::of)
        .sorted(java.util.Comparator.comparing(Address::path).thenComparing(Address::method))
        .toList();
  }

  private static Stream<Address> of(Class<?> resource) {
    return Arrays.stream(resource.getMethods())
        .flatMap(
            method ->
                METHODS.entrySet().stream()
                    .filter(http -> method.isAnnotationPresent(http.getKey()))
                    .map(http -> of(resource, method, http.getValue())));
  }

  private static Address of(Class<?> resource, Method method, String http) {
    String path = resource.getAnnotation(Path.class).value();
    if (method.isAnnotationPresent(Path.class)) {
      path = path + "/" + method.getAnnotation(Path.class).value();
    }
    Optional<String> takes =
        Optional.ofNullable(method.getAnnotation(Consumes.class))
            .map(consumes -> consumes.value()[0]);
    Optional<String> gives =
        Optional.ofNullable(method.getAnnotation(Produces.class))
            .or(() -> Optional.ofNullable(resource.getAnnotation(Produces.class)))
            .map(produces -> produces.value()[0]);
    return new Address(
        http,
        ("/" + path).replaceAll("/+", "/").replaceAll("\\{[^}]*}", "no-such-id"),
        takes,
        gives,
        Optional.ofNullable(method.getAnnotation(RequiresPermission.class))
            .map(RequiresPermission::value));
  }
}
