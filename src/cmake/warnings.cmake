# mw_warnings: the warning set of every target, and the floating-point rules (same bits at every optimisation level).
add_library(mw_warnings INTERFACE)
target_compile_options(mw_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wold-style-cast -Wdouble-promotion
  -ffp-contract=off -ffile-prefix-map=${CMAKE_SOURCE_DIR}=.)
if(MW_WERROR)
  target_compile_options(mw_warnings INTERFACE -Werror)
endif()
