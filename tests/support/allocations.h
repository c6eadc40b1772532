#pragma once

#include <cstdlib>
#include <new>

/// Counts what an executable asks for while `counting`. Replaces operator new: include it in one file of an executable.
namespace mw::test {
inline thread_local bool counting = false;
inline thread_local int allocations = 0;
} // namespace mw::test

[[gnu::noinline]] void* operator new(std::size_t size) {
  if (mw::test::counting) ++mw::test::allocations;
  if (void* p = std::malloc(size == 0 ? 1 : size)) return p;
  throw std::bad_alloc();
}
[[gnu::noinline]] void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  if (mw::test::counting) ++mw::test::allocations;
  return std::malloc(size == 0 ? 1 : size);
}
[[gnu::noinline]] void operator delete(void* p) noexcept { std::free(p); }
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept { std::free(p); }
