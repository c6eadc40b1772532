#include "publish/png.h"

#include <doctest/doctest.h>
#include <isa-l/crc.h>
#include <isa-l/igzip_lib.h>
#include <random>

using namespace mw;

namespace {
std::uint32_t u32(const std::string& s, std::size_t at) {
  std::uint32_t v = 0;
  for (std::size_t i = 0; i < 4; ++i) v = v << 8 | static_cast<unsigned char>(s[at + i]);
  return v;
}

// Reads back what encode_png wrote: chunks with right checksums, rows inflated by the library's decoder.
std::vector<std::uint8_t> decode(const std::string& png, int& width, int& height, int& channels) {
  std::string data;
  for (std::size_t at = 8; at < png.size();) {
    const std::size_t size = u32(png, at);
    const std::string type = png.substr(at + 4, 4);
    CHECK(u32(png, at + 8 + size) == crc32_gzip_refl(0, reinterpret_cast<const unsigned char*>(png.data() + at + 4), size + 4));
    if (type == "IHDR") {
      width = static_cast<int>(u32(png, at + 8));
      height = static_cast<int>(u32(png, at + 12));
      channels = png[at + 17] == 6 ? 4 : 3;
    }
    if (type == "IDAT") data += png.substr(at + 8, size);
    at += size + 12;
  }
  std::vector<std::uint8_t> rows(static_cast<std::size_t>(height) * (static_cast<std::size_t>(width * channels) + 1));
  inflate_state state;
  isal_inflate_init(&state);
  state.crc_flag = ISAL_ZLIB;
  state.next_in = reinterpret_cast<std::uint8_t*>(data.data());
  state.avail_in = static_cast<std::uint32_t>(data.size());
  state.next_out = rows.data();
  state.avail_out = static_cast<std::uint32_t>(rows.size());
  REQUIRE(isal_inflate_stateless(&state) == ISAL_DECOMP_OK);
  return rows;
}
} // namespace

TEST_CASE("png: what is encoded is decoded again, with and without alpha, flat and noisy") {
  std::mt19937 random(5);
  for (const bool alpha : {false, true})
    for (const bool noise : {false, true}) {
      const int w = 37, h = 23;
      std::vector<std::uint8_t> rgba(static_cast<std::size_t>(w * h * 4), 200);
      if (noise)
        for (auto& byte : rgba) byte = static_cast<std::uint8_t>(random());
      int width = 0, height = 0, channels = 0;
      const auto rows = decode(encode_png(rgba, w, h, alpha), width, height, channels);
      CHECK(width == w);
      CHECK(height == h);
      CHECK(channels == (alpha ? 4 : 3));
      std::size_t wrong = 0;
      for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x)
          for (int c = 0; c < channels; ++c)
            wrong += rows[static_cast<std::size_t>(y * (w * channels + 1) + 1 + x * channels + c)] != rgba[static_cast<std::size_t>((y * w + x) * 4 + c)];
      CHECK(wrong == 0);
    }
}

TEST_CASE("png: a flat picture is far smaller than its pixels, the largest size fits") {
  const std::vector<std::uint8_t> flat(1920u * 1080u * 4u, 240);
  CHECK(encode_png(flat, 1920, 1080, false).size() < flat.size() / 50);
}
