package org.kornspur.api.export.label;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import javax.imageio.ImageIO;

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
  private static final int WHITE = 0xFFFFFF;

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
    BufferedImage image = new BufferedImage(side, side, BufferedImage.TYPE_BYTE_BINARY);
    for (int y = 0; y < side; y++) {
      for (int x = 0; x < side; x++) {
        image.setRGB(x, y, isDark(x / PNG_PIXELS_A_MODULE, y / PNG_PIXELS_A_MODULE) ? 0 : WHITE);
      }
    }
    ByteArrayOutputStream png = new ByteArrayOutputStream();
    try {
      ImageIO.write(image, "png", png);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return png.toByteArray();
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

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
