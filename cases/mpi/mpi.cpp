// The only file that knows MPI: texts from rank to rank, as plain functions.
//
// A module of its own, opened by cases/ranks.cpp, so that ferrule itself needs no MPI.
#define OMPI_SKIP_MPICXX 1
#define MPICH_SKIP_MPICXX 1
#include <mpi.h>

#include <cstddef>

extern "C"
{
  __attribute__((visibility("default"))) void ferrule_mpi_begin(int* rank, int* size)
  {
    int provided = 0;
    MPI_Init_thread(nullptr, nullptr, MPI_THREAD_FUNNELED, &provided);
    MPI_Comm_rank(MPI_COMM_WORLD, rank);
    MPI_Comm_size(MPI_COMM_WORLD, size);
  }

  __attribute__((visibility("default"))) void ferrule_mpi_end()
  {
    MPI_Finalize();
  }

  __attribute__((visibility("default"))) void ferrule_mpi_send(int to, const char* text,
                                                               std::size_t size)
  {
    MPI_Send(text, static_cast<int>(size), MPI_CHAR, to, 0, MPI_COMM_WORLD);
  }

  __attribute__((visibility("default"))) int ferrule_mpi_probe(int* from, std::size_t* size)
  {
    int waiting = 0, count = 0;
    MPI_Status status;
    MPI_Iprobe(MPI_ANY_SOURCE, 0, MPI_COMM_WORLD, &waiting, &status);
    if (waiting == 0)
    {
      return 0;
    }
    MPI_Get_count(&status, MPI_CHAR, &count);
    *from = status.MPI_SOURCE;
    *size = static_cast<std::size_t>(count);
    return 1;
  }

  __attribute__((visibility("default"))) void ferrule_mpi_receive(int from, char* text,
                                                                  std::size_t size)
  {
    MPI_Recv(text, static_cast<int>(size), MPI_CHAR, from, 0, MPI_COMM_WORLD, MPI_STATUS_IGNORE);
  }
}
