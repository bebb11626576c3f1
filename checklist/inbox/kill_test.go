package inbox_test

import (
	"bufio"
	"context"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/inbox"
)

// takes makes this test binary a program of its own that takes messages from a folder and, as it claims
// one, says so and stands still: for killing.
const takes = "DUSKHAND_TEST_TAKES"

func TestMain(m *testing.M) {
	folder := os.Getenv(takes)
	if folder == "" {
		os.Exit(m.Run())
	}
	for {
		messages, err := inbox.Take(folder, time.Now())
		if err != nil {
			os.Exit(3)
		}
		if len(messages) > 0 {
			_, _ = os.Stdout.WriteString("taken\n")
			select {}
		}
		time.Sleep(time.Millisecond)
	}
}

func TestATakerKilledWithAMessageInHand(t *testing.T) {
	folder := t.TempDir()
	command := exec.Command(os.Args[0])
	command.Env = append(os.Environ(), takes+"="+folder)
	out, err := command.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, command.Start())
	letter, err := inbox.Post(folder, []string{"rewound", "-16"}, time.Now(), long)
	require.NoError(t, err)
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, "taken\n", line)
	require.NoError(t, command.Process.Kill())
	_ = command.Wait() // it was killed, and says so

	ctx, cancel := context.WithTimeout(context.Background(), short)
	defer cancel()
	_, err = letter.Wait(ctx, func() bool { return false })
	require.ErrorIs(t, err, inbox.ErrNoAnswer)

	taker(t, folder, func(m inbox.Message) { accept(t, m) }) // the program is started again
	answer, err := send(folder, []string{"read", "3"}, long)
	require.NoError(t, err)
	assert.Equal(t, "read 3", answer.Text)
}
