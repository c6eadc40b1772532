#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

namespace mw::test {

/// A data folder of one's own (`XDG_DATA_HOME`) for one test; gone with it.
struct Home {
  std::filesystem::path root = std::filesystem::temp_directory_path() / ("mouthwright_home_" + std::to_string(getpid()));
  std::filesystem::path accents = root / "mouthwright" / "accents";
  Home() {
    std::filesystem::remove_all(root);
    std::filesystem::create_directories(root);
    setenv("XDG_DATA_HOME", root.c_str(), 1);
  }
  ~Home() {
    unsetenv("XDG_DATA_HOME");
    std::filesystem::remove_all(root);
  }
  Home(const Home&) = delete;
  Home& operator=(const Home&) = delete;
  void put(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories(accents);
    std::ofstream(accents / name, std::ios::binary) << text;
  }
};

} // namespace mw::test
