package org.kornspur.api.export.label;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.DeflaterOutputStream;

/**
 * A link as a QR code, drawn as SVG or PNG.
 *
 * <p>Source: ISO/IEC 18004 (quiet zone of four modules); GS1 General Specifications, section 5.9.3,
 * for a QR code that holds a GS1 Digital Link URI.
 */
public final class QrCode {
  private static final int QUIET_MODULES = 4;
  private static final int PNG_PIXELS_A_MODULE = 8;
  private static final int TEXT_LINE = 4;
  private static final byte[] PNG_SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10};

  private final ByteMatrix modules;

  /**
   * @param link at most some two thousand characters
   * @throws IllegalArgumentException if it is too long for a code
   */
  public QrCode(String link) {
    try {
      modules = Encoder.encode(link, ErrorCorrectionLevel.M).getMatrix();
    } catch (WriterException tooLong) {
      throw new IllegalArgumentException("No QR code holds " + link.length() + " characters");
    }
  }

  /**
   * A drawing of any size.
   *
   * @param title what it is, for those who cannot see it
   * @param linesBelow what stands below the code, in print
   */
  public String svg(String title, List<String> linesBelow) {
    int width = modules.getWidth() + 2 * QUIET_MODULES;
    int height = width + TEXT_LINE * linesBelow.size();
    StringBuilder svg = new StringBuilder();
    svg.append(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" role=\"img\">"
            .formatted(width, height));
    svg.append("<title>").append(escaped(title)).append("</title>");
    svg.append("<rect width=\"%d\" height=\"%d\" fill=\"#fff\"/>".formatted(width, height));
    svg.append("<path shape-rendering=\"crispEdges\" d=\"");
    for (int y = 0; y < modules.getHeight(); y++) {
      for (int x = 0; x < modules.getWidth(); x++) {
        if (modules.get(x, y) == 1) {
          svg.append("M%d %dh1v1h-1z".formatted(x + QUIET_MODULES, y + QUIET_MODULES));
        }
      }
    }
    svg.append("\"/>");
    int at = width;
    for (String line : linesBelow) {
      svg.append(
          "<text x=\"%d\" y=\"%d\" font-family=\"sans-serif\" font-size=\"2.4\" textLength=\"%d\" lengthAdjust=\"spacingAndGlyphs\">%s</text>"
              .formatted(QUIET_MODULES, at, width - 2 * QUIET_MODULES, escaped(line)));
      at += TEXT_LINE;
    }
    return svg.append("</svg>\n").toString();
  }

  /** A picture of eight pixels a module, black and white. */
  public byte[] png() {
    int side = (modules.getWidth() + 2 * QUIET_MODULES) * PNG_PIXELS_A_MODULE;
    ByteArrayOutputStream png = new ByteArrayOutputStream();
    png.writeBytes(PNG_SIGNATURE);
    chunk(png, "IHDR", header(side));
    chunk(png, "IDAT", rows(side));
    chunk(png, "IEND", new byte[0]);
    return png.toByteArray();
  }

  /** One bit a pixel, grey, no interlace (PNG specification, section 11.2.1). */
  private static byte[] header(int side) {
    return bytes(
        out -> {
          out.writeInt(side);
          out.writeInt(side);
          out.write(new byte[] {1, 0, 0, 0, 0});
        });
  }

  private byte[] rows(int side) {
    return bytes(
        out -> {
          try (DeflaterOutputStream deflated = new DeflaterOutputStream(out)) {
            for (int y = 0; y < side; y++) {
              deflated.write(0);
              for (int x = 0; x < side; x += 8) {
                deflated.write(isDark(x / PNG_PIXELS_A_MODULE, y / PNG_PIXELS_A_MODULE) ? 0 : 0xFF);
              }
            }
          }
        });
  }

  private boolean isDark(int column, int row) {
    int x = column - QUIET_MODULES;
    int y = row - QUIET_MODULES;
    return x >= 0
        && y >= 0
        && x < modules.getWidth()
        && y < modules.getHeight()
        && modules.get(x, y) == 1;
  }

  private static void chunk(ByteArrayOutputStream png, String type, byte[] data) {
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    CRC32 crc = new CRC32();
    crc.update(name);
    crc.update(data);
    png.writeBytes(
        bytes(
            out -> {
              out.writeInt(data.length);
              out.write(name);
              out.write(data);
              out.writeInt((int) crc.getValue());
            }));
  }

  private interface Writing {
    void to(DataOutputStream out) throws IOException;
  }

  private static byte[] bytes(Writing writing) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      writing.to(out);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toByteArray();
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
