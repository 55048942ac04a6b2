package org.kornspur.api.security.connection;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.netty.handler.codec.http.HttpHeaderValues;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.buffer.Buffer;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.BodyLimit;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.problem.UnreadBody;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.login.ClientAddress;
import org.kornspur.api.security.login.RoutePolicy;
import org.kornspur.ingest.intake.Problem;

/**
 * Takes in the body of a request before a worker thread is given to it, so that a body that does
 * not end holds none. What nobody logged in for may be as long as a log-in, and has to come soon.
 */
@ApplicationScoped
public class RequestBodies {
  private static final Logger LOG = Logger.getLogger(RequestBodies.class);
  private static final int AFTER_ALL_OTHERS = 50;
  private static final String RETRY_AFTER_SECONDS = "5";

  /**
   * Of a body that is read before it is known who sends it; the longest person and password go into
   * it.
   */
  public static final BodyProblem.Limit LIMIT_WITHOUT_LOG_IN =
      new BodyProblem.TooLargeToLogIn(4_096);

  private static final Duration LONGEST = Duration.ofMinutes(2);
  private static final Duration LONGEST_WITHOUT_LOG_IN = Duration.ofSeconds(10);

  /** Bytes of all bodies that are being received or answered; a body is copied twice for that. */
  private static final long MOST_AT_ONCE = Runtime.getRuntime().maxMemory() / 8;

  private static final long MOST_OF_ONE_AT_ONCE = MOST_AT_ONCE / 2;

  @Inject ObjectMapper json;
  private final AtomicLong held = new AtomicLong();
  private final Map<String, Long> heldByOne = new ConcurrentHashMap<>();

  void register(@Observes Filters filters) {
    filters.register(this::receive, AFTER_ALL_OTHERS);
  }

  private void receive(RoutingContext context) {
    if (UnreadBody.hasBody(context.request())) {
      new Receipt(context, CallerIdentity.caller(context)).begin();
    } else {
      context.next();
    }
  }

  /** The body of one request; everything happens in its event loop. */
  private final class Receipt {
    private final RoutingContext context;
    private final HttpServerRequest request;
    private final String sender;
    private final BodyProblem.Limit limit;
    private final Duration longest;
    private final Buffer body = Buffer.buffer();
    private boolean isOver;

    Receipt(RoutingContext context, Optional<Caller> caller) {
      this.context = context;
      this.request = context.request();
      boolean isKnown = caller.isPresent() && !RoutePolicy.isOpen(context.normalizedPath());
      this.sender = isKnown ? caller.get().personId() : ClientAddress.of(context);
      this.limit = isKnown ? new BodyProblem.TooLarge(BodyLimit.MOST_BYTES) : LIMIT_WITHOUT_LOG_IN;
      this.longest = isKnown ? LONGEST : LONGEST_WITHOUT_LOG_IN;
    }

    void begin() {
      long timer = context.vertx().setTimer(longest.toMillis(), passed -> refuseSlow());
      Connections.whenEnded(
          context,
          () -> {
            context.vertx().cancelTimer(timer);
            letGo(body.length());
          });
      Optional<ProblemDocument> tooLarge = BodyLimit.ofDeclared(request, limit);
      if (tooLarge.isPresent()) {
        refuse(tooLarge.get());
        return;
      }
      request.exceptionHandler(
          closed -> {
            isOver = true;
            LOG.debugf("The sender of a body went away after %d bytes", body.length());
          });
      request.endHandler(
          ended -> {
            context.vertx().cancelTimer(timer);
            if (!isOver) {
              isOver = true;
              context.setBody(body);
              context.next();
            }
          });
      request.handler(this::take);
      if (HttpHeaderValues.CONTINUE.contentEqualsIgnoreCase(
          request.getHeader(HttpHeaders.EXPECT))) {
        context.response().writeContinue();
      }
    }

    private void take(Buffer part) {
      if (isOver) {
        return;
      }
      body.appendBuffer(part);
      long all = held.addAndGet(part.length());
      long ofOne = heldByOne.merge(sender, (long) part.length(), Long::sum);
      if (body.length() > limit.most()) {
        refuse(BodyLimit.tooLarge(new RequestGiven.MoreBytes(limit.most()), limit));
      } else if (all > MOST_AT_ONCE || ofOne > MOST_OF_ONE_AT_ONCE) {
        context.response().putHeader(HttpHeaders.RETRY_AFTER, RETRY_AFTER_SECONDS);
        refuse(ProblemDocument.of(ProblemKind.NOT_READY, new AccessDetail.TooManyBodies()));
      }
    }

    private void letGo(int bytes) {
      held.addAndGet(-bytes);
      heldByOne.computeIfPresent(sender, (name, all) -> all == bytes ? null : all - bytes);
    }

    private void refuseSlow() {
      Problem problem =
          Problem.of(
              "",
              new RequestGiven.UnfinishedBody(body.length()),
              new BodyProblem.Slow(Math.toIntExact(longest.toSeconds())));
      refuse(ProblemDocument.of(ProblemKind.REQUEST_TIMEOUT, List.of(problem)));
    }

    private void refuse(ProblemDocument document) {
      if (!isOver) {
        isOver = true;
        ProblemAnswer.end(context, document, json);
      }
    }
  }
}
