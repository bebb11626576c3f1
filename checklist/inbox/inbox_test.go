package inbox_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist/inbox"
)

// long is a wait that no test reaches; short is one that some must.
const long, short = 20 * time.Second, 100 * time.Millisecond

// send posts words and waits for the answer, as long as they may be taken.
func send(folder string, words []string, wait time.Duration) (inbox.Answer, error) {
	letter, err := inbox.Post(folder, words, time.Now(), wait)
	if err != nil {
		return inbox.Answer{}, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), wait)
	defer cancel()
	return letter.Wait(ctx, func() bool { return false })
}

func accept(t require.TestingT, m inbox.Message) {
	require.NoError(t, m.Answer(inbox.Answer{Accepted: true, Text: strings.Join(m.Words, " ")}))
}

// taker takes and answers until the test ends, as the screens do once a second.
func taker(t *testing.T, folder string, answer func(inbox.Message)) {
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		for {
			messages, err := inbox.Take(folder, time.Now())
			assert.NoError(t, err)
			for _, m := range messages {
				answer(m)
			}
			select {
			case <-stop:
				return
			case <-time.After(time.Millisecond):
			}
		}
	}()
	t.Cleanup(func() { close(stop); <-stopped })
}

func files(t *testing.T, folder string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestWhatIsSaidIsTakenAndAnswered(t *testing.T) {
	folder := inbox.Beside(filepath.Join(t.TempDir(), "state", "journal.db"))
	taker(t, folder, func(m inbox.Message) {
		if m.Words[0] == "undo" {
			assert.NoError(t, m.Answer(inbox.Answer{Text: "there is nothing to undo"}))
			return
		}
		accept(t, m)
	})
	answer, err := send(folder, []string{"rewound", "-16"}, long)
	require.NoError(t, err)
	assert.Equal(t, inbox.Answer{Accepted: true, Text: "rewound -16"}, answer)
	answer, err = send(folder, []string{"undo"}, long)
	require.NoError(t, err)
	assert.Equal(t, inbox.Answer{Text: "there is nothing to undo"}, answer)
	assert.Empty(t, files(t, folder), "nothing stays behind")
}

func TestManySendersAreEachAnsweredOnce(t *testing.T) {
	const senders, each = 12, 5
	folder := t.TempDir()
	var mu sync.Mutex
	heard := map[string]int{}
	for range 2 { // two takers, as in a take-over: still each message once
		taker(t, folder, func(m inbox.Message) {
			mu.Lock()
			heard[strings.Join(m.Words, " ")]++
			mu.Unlock()
			accept(t, m)
		})
	}
	var wait sync.WaitGroup
	for s := range senders {
		wait.Go(func() {
			for i := range each {
				text := fmt.Sprint("note ", s, " ", i)
				answer, err := send(folder, strings.Fields(text), long)
				assert.NoError(t, err)
				assert.Equal(t, inbox.Answer{Accepted: true, Text: text}, answer, "the answer to what was said, not to another")
			}
		})
	}
	wait.Wait()
	require.Len(t, heard, senders*each)
	for text, times := range heard {
		assert.Equal(t, 1, times, text)
	}
	assert.Empty(t, files(t, folder))
}

func TestMessagesAreTakenInTheOrderOfSending(t *testing.T) {
	folder, now := t.TempDir(), time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	for _, i := range []int{3, 1, 2, 0} {
		_, err := inbox.Post(folder, []string{strconv.Itoa(i)}, now.Add(time.Duration(i)*time.Nanosecond), time.Minute)
		require.NoError(t, err)
	}
	messages, err := inbox.Take(folder, now)
	require.NoError(t, err)
	require.Len(t, messages, 4)
	for i, m := range messages {
		assert.Equal(t, []string{strconv.Itoa(i)}, m.Words)
		assert.Equal(t, now.Add(time.Duration(i)), m.Sent)
	}
}

func TestWithNobodyThereItIsWithdrawn(t *testing.T) {
	folder := t.TempDir()
	_, err := send(folder, []string{"undo"}, short)
	require.ErrorIs(t, err, inbox.ErrNotTaken)
	messages, err := inbox.Take(folder, time.Now())
	require.NoError(t, err)
	assert.Empty(t, messages, "what was withdrawn is not taken")

	letter, err := inbox.Post(folder, []string{"undo"}, time.Now(), long)
	require.NoError(t, err)
	_, err = letter.Wait(context.Background(), func() bool { return true })
	require.ErrorIs(t, err, inbox.ErrNotTaken, "the sender can do without")
	assert.Empty(t, files(t, folder))
}

func TestATakerThatDiesBeforeItAnswersIsTold(t *testing.T) {
	folder := t.TempDir()
	letter, err := inbox.Post(folder, []string{"undo"}, time.Now(), long)
	require.NoError(t, err)
	messages, err := inbox.Take(folder, time.Now())
	require.NoError(t, err)
	require.Len(t, messages, 1) // and then it dies
	ctx, cancel := context.WithTimeout(context.Background(), short)
	defer cancel()
	_, err = letter.Wait(ctx, func() bool { return false })
	require.ErrorIs(t, err, inbox.ErrNoAnswer)
	again, err := inbox.Take(folder, time.Now())
	require.NoError(t, err)
	assert.Empty(t, again, "the next program does not take it again: it may have been written")
	require.Len(t, files(t, folder), 1)
	_, err = inbox.Take(folder, time.Now().Add(time.Hour))
	require.NoError(t, err)
	assert.Empty(t, files(t, folder), "swept away with time")
}

func TestWhatASenderLeftIsNotTakenLater(t *testing.T) {
	folder, now := t.TempDir(), time.Now()
	_, err := inbox.Post(folder, []string{"rewound", "-16"}, now, time.Second) // and then it is killed
	require.NoError(t, err)
	messages, err := inbox.Take(folder, now.Add(time.Minute))
	require.NoError(t, err)
	assert.Empty(t, messages, "the next night must not begin with it")
	_, err = inbox.Take(folder, now.Add(time.Hour))
	require.NoError(t, err)
	assert.Empty(t, files(t, folder))
}

func TestRubbishInTheFolderStopsNothing(t *testing.T) {
	folder, now := t.TempDir(), time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	for name, text := range map[string]string{
		"20261205T124359.000000000Z-1-aa.said": `{"words":["rew`, "20261205T124359.000000001Z-1-aa.said": "",
		"20261205T124359.000000002Z-1-aa.said": `{"words":[]}`, "20261205T124359.000000003Z-1-aa.part": `{"wo`,
		"20261205T124359.000000004Z-1-aa.said": strings.Repeat("x", 100_000), "notes.txt": "mine", ".said": "",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600))
	}
	require.NoError(t, os.Mkdir(filepath.Join(folder, "20261205T124359.000000005Z-1-aa.said"), 0o700))
	_, err := inbox.Post(folder, []string{"undo"}, now, time.Minute)
	require.NoError(t, err)
	messages, _ := inbox.Take(folder, now)
	require.Len(t, messages, 1)
	assert.Equal(t, []string{"undo"}, messages[0].Words)
	accept(t, messages[0])
	_, err = inbox.Take(folder, now.Add(time.Hour))
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{"notes.txt", ".said"}, files(t, folder), "what is not ours is left alone")
}

func TestALongMessageIsRefusedAtOnce(t *testing.T) {
	_, err := inbox.Post(t.TempDir(), []string{"note", strings.Repeat("x", 70_000)}, time.Now(), long)
	require.ErrorContains(t, err, "say it in less than 65536")
}

func TestTakeReadsAnyBytes(t *testing.T) {
	folder := t.TempDir()
	now := time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	rapid.Check(t, func(t *rapid.T) {
		data := rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")
		name := filepath.Join(folder, "20261205T124359.000000000Z-1-aa.said")
		require.NoError(t, os.WriteFile(name, data, 0o600))
		messages, err := inbox.Take(folder, now)
		require.NoError(t, err)
		for _, m := range messages {
			accept(t, m)
		}
		_, err = os.Stat(name)
		require.ErrorIs(t, err, os.ErrNotExist)
	})
}
