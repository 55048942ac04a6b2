package org.kornspur.api.http;

import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.HttpMethod;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.UriInfo;
import jakarta.ws.rs.ext.Provider;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Parameter;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.visibility.RequestEcho;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.intake.Problem;

/**
 * Lets no parameter of a GET pass in silence that its address does not know: a filter whose name is
 * mistyped would leave a list wider than its reader believes. The names known are those of the
 * method that answers, as the OpenAPI document lists them. The interface refuses the request; a
 * page says on it what it ignored.
 */
@Provider
@Priority(UnknownParameterFilter.AFTER_THE_CALLER_IS_LET_IN)
public class UnknownParameterFilter implements ContainerRequestFilter {
  static final int AFTER_THE_CALLER_IS_LET_IN = Priorities.AUTHORIZATION + 100;

  private static final int SHOWN_OF_A_NAME = 64;

  private final Map<Method, SortedSet<String>> namesByMethod = new ConcurrentHashMap<>();

  @Inject IgnoredParameters ignored;
  @Inject RequestEcho asked;
  @Context ResourceInfo resource;

  @Override
  public void filter(ContainerRequestContext request) {
    if (!request.getMethod().equals(HttpMethod.GET)) {
      return;
    }
    Method method = resource.getResourceMethod();
    rememberEcho(request.getUriInfo(), method);
    boolean isInterface =
        request.getUriInfo().getRequestUri().getPath().startsWith(Addresses.ROOT + "/");
    if (!isInterface && !isPage(method)) {
      return;
    }
    MultivaluedMap<String, String> given = request.getUriInfo().getQueryParameters();
    if (given.isEmpty() || readsAny(method)) {
      return;
    }
    List<Problem> unknown = unknown(given, names(method));
    if (unknown.isEmpty()) {
      return;
    }
    if (isInterface) {
      request.abortWith(
          ProblemAnswer.of(ProblemDocument.of(ProblemKind.INVALID_PARAMETER, unknown)).build());
    } else {
      ignored.add(unknown);
    }
  }

  /**
   * Of a resource that reads its query itself nothing of it is told: it uses or refuses each
   * parameter and repeats none in its answer, so there is neither an echo to allow nor one to take
   * out.
   */
  private void rememberEcho(UriInfo uri, Method method) {
    List<String> matrix =
        Arrays.stream(uri.getPath(true).split("/"))
            .filter(part -> part.indexOf(';') >= 0)
            .map(part -> part.substring(part.indexOf(';')))
            .toList();
    asked.remember(
        uri.getPathParameters().values().stream().flatMap(List::stream).toList(),
        matrix,
        readsAny(method) ? Map.of() : uri.getQueryParameters(),
        names(method));
  }

  private static List<Problem> unknown(
      MultivaluedMap<String, String> given, SortedSet<String> known) {
    return given.keySet().stream()
        .filter(name -> !known.contains(name))
        .sorted()
        .map(
            name ->
                Problem.of(
                    Problem.described(name, SHOWN_OF_A_NAME),
                    given.getFirst(name),
                    known.isEmpty()
                        ? new ParameterProblem.NoneHere()
                        : new ParameterProblem.OtherName(List.copyOf(known))))
        .toList();
  }

  private SortedSet<String> names(Method method) {
    return namesByMethod.computeIfAbsent(
        method,
        asked -> {
          SortedSet<String> names = new TreeSet<>();
          for (Parameter parameter : asked.getParameters()) {
            name(parameter).ifPresent(names::add);
            if (parameter.isAnnotationPresent(BeanParam.class)) {
              for (Field field : parameter.getType().getDeclaredFields()) {
                name(field).ifPresent(names::add);
              }
            }
          }
          selfRead(asked).forEach(also -> names.addAll(List.of(also.value())));
          return names;
        });
  }

  private static Optional<String> name(AnnotatedElement element) {
    return Optional.ofNullable(element.getAnnotation(QueryParam.class)).map(QueryParam::value);
  }

  private static boolean readsAny(Method method) {
    return selfRead(method).anyMatch(also -> also.value().length == 0);
  }

  private static Stream<ReadsQueryItself> selfRead(Method method) {
    return Stream.of(method, method.getDeclaringClass())
        .map(element -> element.getAnnotation(ReadsQueryItself.class))
        .flatMap(Stream::ofNullable);
  }

  private static boolean isPage(Method method) {
    return Stream.of(method, method.getDeclaringClass())
        .map(element -> element.getAnnotation(Produces.class))
        .flatMap(Stream::ofNullable)
        .flatMap(produces -> Arrays.stream(produces.value()))
        .anyMatch(type -> type.startsWith(MediaType.TEXT_HTML));
  }
}
