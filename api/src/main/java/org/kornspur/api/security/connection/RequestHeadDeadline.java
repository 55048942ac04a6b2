package org.kornspur.api.security.connection;

import io.netty.buffer.ByteBuf;
import io.netty.channel.ChannelDuplexHandler;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelPromise;
import io.netty.channel.socket.DuplexChannel;
import io.netty.util.ReferenceCountUtil;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.kornspur.api.problem.UnreadBody;

/**
 * Ends a connection whose next request does not come, or comes a byte at a time: the head must be
 * whole some seconds after its first byte, and after the connection was made. Where nobody is
 * logged in, the next request must follow the last one soon; for all others the server's idle
 * timeout holds.
 *
 * <p>It also closes a connection so that the last answer arrives (RFC 9112, section 9.6): what is
 * left of a body that nobody reads is taken in and thrown away for a moment. A system that closes
 * with unread bytes resets the connection, and the reset may overtake the answer.
 */
// nothing is left to do when a connection that is being closed cannot be closed
@SuppressWarnings("FutureReturnValueIgnored")
final class RequestHeadDeadline extends ChannelDuplexHandler {
  private static final int HEAD_SECONDS = 10;
  private static final int NEXT_REQUEST_SECONDS = 30;
  private static final int CLOSING_SECONDS = 5;
  private static final int MOST_BYTES_THROWN_AWAY = 10_000_000;

  private ChannelHandlerContext connection;
  private Future<?> end;
  private boolean hasBegun = true;
  private boolean isAnswering;
  private int requests;
  private boolean isClosing;
  private long thrownAway;

  @Override
  public void handlerAdded(ChannelHandlerContext context) {
    connection = context;
  }

  @Override
  public void channelActive(ChannelHandlerContext context) {
    endAfter(HEAD_SECONDS);
    context.fireChannelActive();
  }

  @Override
  public void channelInactive(ChannelHandlerContext context) {
    keepOpen();
    context.fireChannelInactive();
  }

  @Override
  public void channelRead(ChannelHandlerContext context, Object bytes) {
    if (isClosing) {
      throwAway(bytes);
      return;
    }
    if (!isAnswering && !hasBegun) {
      hasBegun = true;
      endAfter(HEAD_SECONDS);
    }
    context.fireChannelRead(bytes);
  }

  /**
   * The head of a request is whole; to be called by the event loop.
   *
   * @return which request of this connection it is
   */
  int headIsWhole() {
    isAnswering = true;
    keepOpen();
    return ++requests;
  }

  /**
   * The answer is sent.
   *
   * @param request which one it was; the head of the next one may have overtaken this call
   */
  void answered(int request, boolean isLoggedIn) {
    if (!connection.channel().isActive()) {
      return;
    }
    connection
        .executor()
        .execute(
            () -> {
              if (request == requests && !isClosing) {
                isAnswering = false;
                hasBegun = false;
                if (!isLoggedIn) {
                  endAfter(NEXT_REQUEST_SECONDS);
                }
              }
            });
  }

  @Override
  public void close(ChannelHandlerContext context, ChannelPromise promise) {
    if (!(context.channel() instanceof DuplexChannel channel)
        || !channel.isActive()
        || !UnreadBody.isLeftOn(channel)) {
      context.close(promise);
      return;
    }
    channel.closeFuture().addListener(closed -> promise.trySuccess());
    if (!isClosing) {
      isClosing = true;
      channel.shutdownOutput();
      channel.config().setAutoRead(true);
      endAfter(CLOSING_SECONDS);
    }
  }

  private void throwAway(Object bytes) {
    thrownAway += bytes instanceof ByteBuf buffer ? buffer.readableBytes() : 0;
    ReferenceCountUtil.release(bytes);
    if (thrownAway > MOST_BYTES_THROWN_AWAY) {
      connection.close();
    }
  }

  private void endAfter(int seconds) {
    keepOpen();
    if (connection.channel().isActive()) {
      end = connection.executor().schedule(() -> connection.close(), seconds, TimeUnit.SECONDS);
    }
  }

  private void keepOpen() {
    if (end != null) {
      end.cancel(false);
      end = null;
    }
  }
}
