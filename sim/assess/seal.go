package assess

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"filippo.io/age"

	"dryline/sim/exercise"
)

// The files of an assessment besides the desk's products.
const (
	LogFile      = "assessment.jsonl"
	SecretFile   = "exercise.age"
	KeyFile      = "records.age"
	FindingsFile = "findings.age"
	StateFile    = "going-on.age" // only while it is under way
)

// Bounds of what is read, bytes.
const (
	longestSecret   = 4 << 20
	longestLog      = 64 << 20
	longestFindings = 1 << 30
)

// Secret holds what a trainee may not know: the exercise, its seeds.
type Secret struct {
	Session  string // of which it is, hex
	Exercise string // its name
	Source   []byte // its file, whole
	Seeds    exercise.Seeds
}

// secret is a [Secret] as it is written.
type secret struct {
	Session  string `json:"session"`
	Exercise string `json:"exercise"`
	Seed     uint64 `json:"seed"`
	Ground   uint64 `json:"ground"`
	Placed   uint64 `json:"placed"`
	Weather  uint64 `json:"weather"`
	Sonar    uint64 `json:"sonar"`
	Source   string `json:"source"`
}

func (s *Secret) encode() secret {
	return secret{s.Session, s.Exercise, s.Seeds.One, s.Seeds.Ground, s.Seeds.Placed, s.Seeds.Weather, s.Seeds.Sonar, string(s.Source)}
}

func (s *secret) decode() *Secret {
	return &Secret{s.Session, s.Exercise, []byte(s.Source), exercise.Seeds{One: s.Seed, Ground: s.Ground, Placed: s.Placed, Weather: s.Weather, Sonar: s.Sonar}}
}

// recordKey is the key of a session's records as it is written.
type recordKey struct {
	Session string `json:"session"`
	Key     string `json:"key"` // of the first record, hex
}

// ErrNotForThisKey says that a sealed file was sealed to other keys.
var ErrNotForThisKey = errors.New("it is not sealed to this key")

// seal encrypts to recipients.
func seal(content []byte, to ...age.Recipient) ([]byte, error) {
	var b bytes.Buffer
	w, err := age.Encrypt(&b, to...)
	if err == nil {
		_, err = w.Write(content)
	}
	if err == nil {
		err = w.Close()
	}
	return b.Bytes(), err
}

func sealJSON(v any, to ...age.Recipient) ([]byte, error) {
	content, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	return seal(content, to...)
}

// unseal decrypts a file, named for its faults.
func unseal(name string, sealed []byte, longest int64, by age.Identity) ([]byte, error) {
	r, err := age.Decrypt(bytes.NewReader(sealed), by)
	if err != nil {
		if _, other := errors.AsType[*age.NoIdentityMatchError](err); other {
			return nil, fmt.Errorf("%s: %w", name, ErrNotForThisKey)
		}
		return nil, fmt.Errorf("%s: it is damaged or was changed: %w", name, err)
	}
	content, err := io.ReadAll(io.LimitReader(r, longest+1))
	if err != nil {
		return nil, fmt.Errorf("%s: it is cut or was changed: %w", name, err)
	}
	if int64(len(content)) > longest {
		return nil, fmt.Errorf("%s: it holds more than %d bytes", name, longest)
	}
	return content, nil
}

func unsealJSON(name string, sealed []byte, by age.Identity, v any) error {
	content, err := unseal(name, sealed, longestSecret, by)
	if err != nil {
		return err
	}
	if err := strictly(content, v); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// hashOf is the SHA-256 of bytes, hex.
func hashOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}
