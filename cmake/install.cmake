# What `cmake --install` lays down: program, drawing module, libraries, headers, package files.
#
# Our headers include each other as "mesh/scene.hpp"; a user writes <ferrule/mesh/scene.hpp>.
include(CMakePackageConfigHelpers)

set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/ferrule)
foreach(folder mesh solver post cases)
  add_library(ferrule::${folder} ALIAS ferrule_${folder})
  target_include_directories(ferrule_${folder} PUBLIC
    $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>
    $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/ferrule>)
  set_target_properties(ferrule_${folder} PROPERTIES EXPORT_NAME ${folder})
  install(TARGETS ferrule_${folder} EXPORT ferrule ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
  file(GLOB headers CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${folder}/*.hpp)
  install(FILES ${headers} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/ferrule/${folder})
endforeach()
install(TARGETS ferrule RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(TARGETS ferrule_drawing LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/ferrule)
if(TARGET ferrule_mpi)
  install(TARGETS ferrule_mpi LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/ferrule)
endif()

install(FILES ${PROJECT_BINARY_DIR}/help/ferrule.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${PROJECT_BINARY_DIR}/help/ferrule.bash RENAME ferrule
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${PROJECT_SOURCE_DIR}/cases/case.schema.json
  DESTINATION ${CMAKE_INSTALL_DATADIR}/ferrule)
install(FILES ${PROJECT_BINARY_DIR}/help/_ferrule
  DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)

install(EXPORT ferrule NAMESPACE ferrule:: FILE ferruleTargets.cmake DESTINATION ${package_dir})
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/ferruleConfig.cmake.in
  ${PROJECT_BINARY_DIR}/ferruleConfig.cmake INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/ferruleConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/ferruleConfig.cmake
  ${PROJECT_BINARY_DIR}/ferruleConfigVersion.cmake DESTINATION ${package_dir})

# `cpack --config build/release/CPackConfig.cmake`: a package for Debian, its dependencies read from
# what program and modules link.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "the ferrule maintainers <maintainers@example.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core") # Cairo names no font by itself
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_STRIP_FILES ON)
include(CPack)
