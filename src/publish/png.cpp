#include "publish/png.h"

#include "base/expect.h"

#include <cstring>
#include <isa-l/crc.h>
#include <isa-l/igzip_lib.h>

namespace mw {
namespace {
void append_u32(std::string& out, std::uint32_t value) {
  for (int shift = 24; shift >= 0; shift -= 8) out += static_cast<char>((value >> shift) & 0xff);
}

// length, type, data, checksum over type and data
void append_chunk(std::string& out, const char* type, const std::string& data) {
  append_u32(out, static_cast<std::uint32_t>(data.size()));
  const std::size_t start = out.size();
  out.append(type, 4);
  out += data;
  append_u32(out, crc32_gzip_refl(0, reinterpret_cast<const unsigned char*>(out.data() + start), data.size() + 4));
}

// rows with their filter byte (0 = none)
std::vector<std::uint8_t> filtered_rows(std::span<const std::uint8_t> rgba, int width, int height, bool alpha) {
  const std::size_t w = static_cast<std::size_t>(width), channels = alpha ? 4 : 3, stride = w * channels + 1;
  std::vector<std::uint8_t> rows(stride * static_cast<std::size_t>(height));
  for (std::size_t y = 0; y < static_cast<std::size_t>(height); ++y) {
    const std::uint8_t* from = rgba.data() + y * w * 4;
    std::uint8_t* to = rows.data() + y * stride;
    *to++ = 0;
    if (alpha) {
      std::memcpy(to, from, w * 4);
      continue;
    }
    for (std::size_t x = 0; x < w; ++x, from += 4, to += 3) std::memcpy(to, from, 3);
  }
  return rows;
}

std::string deflate(const std::vector<std::uint8_t>& bytes) {
  isal_zstream stream;
  isal_deflate_stateless_init(&stream);
  std::vector<std::uint8_t> level_buffer(ISAL_DEF_LVL1_DEFAULT);
  std::string out(bytes.size() + bytes.size() / 8 + 4096, '\0');
  stream.level = 1;
  stream.level_buf = level_buffer.data();
  stream.level_buf_size = static_cast<std::uint32_t>(level_buffer.size());
  stream.gzip_flag = IGZIP_ZLIB;
  stream.end_of_stream = 1;
  stream.next_in = const_cast<std::uint8_t*>(bytes.data());
  stream.avail_in = static_cast<std::uint32_t>(bytes.size());
  stream.next_out = reinterpret_cast<std::uint8_t*>(out.data());
  stream.avail_out = static_cast<std::uint32_t>(out.size());
  MW_EXPECT(isal_deflate_stateless(&stream) == COMP_OK);
  out.resize(stream.total_out);
  return out;
}
} // namespace

std::string encode_png(std::span<const std::uint8_t> rgba, int width, int height, bool alpha) {
  MW_EXPECT(width > 0 && height > 0);
  MW_EXPECT(rgba.size() == static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
  std::string out("\x89PNG\r\n\x1a\n", 8);
  std::string header;
  append_u32(header, static_cast<std::uint32_t>(width));
  append_u32(header, static_cast<std::uint32_t>(height));
  header += {8, static_cast<char>(alpha ? 6 : 2), 0, 0, 0};
  append_chunk(out, "IHDR", header);
  append_chunk(out, "IDAT", deflate(filtered_rows(rgba, width, height, alpha)));
  append_chunk(out, "IEND", "");
  return out;
}

} // namespace mw
