# mw_embed(TARGET NAMESPACE file...): one header <build>/embedded/NAMESPACE.h with each file as a string_view named after it.
function(mw_embed target name)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/embedded/${name}.h)
  add_custom_command(OUTPUT ${out}
    COMMAND ${CMAKE_COMMAND} -DOUT=${out} -DNAME=${name} "-DFILES=${ARGN}" -P ${CMAKE_SOURCE_DIR}/src/cmake/embed_files.cmake
    DEPENDS ${ARGN} ${CMAKE_SOURCE_DIR}/src/cmake/embed_files.cmake VERBATIM)
  add_custom_target(${target}_${name} DEPENDS ${out})
  add_dependencies(${target} ${target}_${name})
  target_include_directories(${target} PRIVATE ${CMAKE_CURRENT_BINARY_DIR})
endfunction()
